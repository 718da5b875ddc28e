/** What something in a drawing is, by its class and id. */
export type SvgRole = 'edge' | 'grain' | 'notch' | 'fold' | 'line' | 'mark';

const BY_CLASS: Readonly<Record<string, SvgRole>> = {
  edge: 'edge',
  line: 'line',
  inner: 'line',
  internal: 'line',
  mark: 'mark',
  arrow: 'mark',
  guide: 'mark',
};
/** Known by class and by id. */
const BY_EITHER: Readonly<Record<string, SvgRole>> = {
  grain: 'grain',
  grainline: 'grain',
  notch: 'notch',
  notches: 'notch',
  fold: 'fold',
  foldline: 'fold',
};

/** Names that drawing programs give by themselves. */
const GIVEN_BY_PROGRAM =
  /^(path|rect|circle|ellipse|polygon|polyline|line|g|group|svg|text|layer|use)[-_ ]?\d*$/i;

const words = (text: string | undefined): string[] => (text ?? '').toLowerCase().split(/[^a-z]+/);

/** What an element says that it is; null where it says nothing. */
export function svgRole(attributes: ReadonlyMap<string, string>): SvgRole | null {
  const classes = words(attributes.get('class'));
  const known = classes.map((word) => BY_CLASS[word] ?? BY_EITHER[word]).find((role) => role !== undefined);
  if (known) return known;
  return (
    words(attributes.get('id'))
      .map((word) => BY_EITHER[word])
      .find((role) => role !== undefined) ?? null
  );
}

/** What the person who drew it calls an element; null where nobody did. */
export function svgName(attributes: ReadonlyMap<string, string>): string | null {
  const label = [...attributes].find(([key]) => key.endsWith(':label'))?.[1];
  const name = (attributes.get('data-name') ?? label ?? attributes.get('id') ?? '').trim().slice(0, 60);
  return name === '' || GIVEN_BY_PROGRAM.test(name) ? null : name;
}

/** Whether an element and all in it is not shown. */
export const isHidden = (attributes: ReadonlyMap<string, string>): boolean =>
  attributes.get('display') === 'none' || /(^|;)\s*display\s*:\s*none/.test(attributes.get('style') ?? '');
