import { describe, expect, it } from 'vitest';
import type { PanelNotch } from '../../../core/pattern/imported-pattern.ts';
import type { FlatPoint, Panel } from '../../../core/pattern/pattern.ts';
import { proposeSeams } from '../../../core/pattern/propose-seams.ts';

/** A panel of four corners that runs counter-clockwise from its lower left; mm. */
function fourSided(name: string, corners: readonly FlatPoint[], names: readonly string[]): Panel {
  const at = corners.map(([x, y]) => [x / 1000, y / 1000] as const);
  return { name, edges: names.map((edge, e) => ({ name: edge, points: [at[e]!, at[(e + 1) % 4]!] })) };
}

const NUMBERED = ['edge1', 'edge2', 'edge3', 'edge4'];
const box = (name: string, width: number, height: number, names = NUMBERED): Panel =>
  fourSided(
    name,
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
    names,
  );
const said = (panels: readonly Panel[], notches: readonly PanelNotch[] = []): string[] =>
  proposeSeams({ panels, notches }).map(
    ({ seam: { one, other, turned }, because, sureness }) =>
      `${one.panel} ${one.edge} - ${other.panel} ${other.edge}${turned ? '' : ' (turned over)'}: ${because}, ${sureness}`,
  );

/** A notch, mm. */
const notch = (panel: string, x: number, y: number): PanelNotch => ({ panel, at: [x / 1000, y / 1000] });

describe('proposeSeams', () => {
  it('proposes like lengths as possible only, and none that differ by more than 5 %', () => {
    const alike = said([box('a', 150, 300), box('b', 200, 300)]);
    expect(alike.slice(0, 2)).toEqual([
      'a edge2 - b edge2: length, possible',
      'a edge4 - b edge4: length, possible',
    ]);
    const apart = said([box('a', 150, 300), box('b', 200, 316)]);
    expect(apart).toEqual(apart.filter((words) => !/^a .* - b /.test(words)));
    expect([...alike, ...apart].every((words) => words.endsWith('possible'))).toBe(true);
  });

  it('goes by names before lengths, with ease up to 5 %, and leaves hems and waists open', () => {
    const names = ['hem', 'side left', 'waist', 'side right'];
    const mirrored = ['hem', 'side right', 'waist', 'side left'];
    const proposals = proposeSeams({
      panels: [box('front', 150, 300, names), box('back', 150, 309, mirrored)],
      notches: [],
    });
    const taken = proposals.filter(({ sureness }) => sureness !== 'possible');
    expect(taken.map(({ seam }) => `${seam.one.edge} - ${seam.other.edge}`)).toEqual([
      'side left - side left',
      'side right - side right',
    ]);
    // 9 mm longer, 3 % of 300 mm.
    expect(taken[0]!.ease.difference).toBeCloseTo(0.009, 12);
    expect(taken[0]!.ease.ratio).toBeCloseTo(0.03, 12);
  });

  it('goes by notches where all lengths are alike, and sees a panel drawn from its inner side', () => {
    const panels = [box('a', 200, 200), box('b', 200, 200)];
    // 60 mm from the lower end of a's right and of b's left side; 80 mm from the left end of both upper sides.
    const sides = [notch('a', 200, 60), notch('b', 0, 60), notch('a', 80, 200), notch('b', 80, 200)];
    expect(said(panels, sides).slice(0, 2)).toEqual([
      'a edge2 - b edge4: notches, sure',
      'a edge3 - b edge3 (turned over): notches, likely',
    ]);
  });

  it('joins a sheet to itself as a tube where nothing else fits', () => {
    const notches = [240, 0].map((x): PanelNotch => ({ panel: 'leg', at: [x / 1000, 0.12] }));
    expect(said([box('leg', 240, 300)], notches)[0]).toBe('leg edge2 - leg edge4: notches, likely');
  });
});
