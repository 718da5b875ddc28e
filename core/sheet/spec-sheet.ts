import { BLOCKS, type BlockSheet, type Construction } from '../block/blocks.ts';
import { changedBlock, type BlockChange } from '../block/changed-block.ts';

/** One number of a spec sheet as it stands in its field; m. */
export interface SpecField {
  readonly name: string;
  /** Whether the block can do without it. */
  readonly needed: boolean;
  /** As it is wanted; null where nothing is given. */
  readonly value: number | null;
  /** As the study was opened. */
  readonly opened: number | null;
}

/** A spec sheet as a form of fields, in the block's order. */
export interface SpecFields {
  readonly girths: readonly SpecField[];
  readonly lengths: readonly SpecField[];
  readonly laid: readonly SpecField[];
  readonly construction: Construction;
}

/**
 * The fields of a spec sheet, filled with what is tried.
 *
 * @param girthScale - All girths times this.
 */
export function specFields(opened: BlockSheet, change: BlockChange = {}, girthScale = 1): SpecFields {
  const wanted = changedBlock(opened, change);
  const { levels, lengths, laid } = BLOCKS[opened.block];
  const filled = (
    part: 'girths' | 'lengths' | 'laid',
    measures: readonly { readonly name: string; readonly needed: boolean }[],
  ): SpecField[] =>
    measures.map(({ name, needed }) => ({
      name,
      needed,
      value: wanted[part]?.[name] ?? null,
      opened: opened[part]?.[name] ?? null,
    }));
  return {
    girths: filled('girths', levels).map((field) => ({
      ...field,
      value: field.value === null ? null : field.value * girthScale,
    })),
    lengths: filled('lengths', lengths),
    laid: filled(
      'laid',
      laid.map((name) => ({ name, needed: false })),
    ),
    construction: wanted.construction,
  };
}

/** A change without what the sheet says already; null where nothing is left. */
export function plainBlockChange(sheet: BlockSheet, change: BlockChange): BlockChange | null {
  const girths = unlike(sheet.girths, change.girths);
  const lengths = unlike(sheet.lengths, change.lengths);
  const laid = unlike(sheet.laid, change.laid);
  const { construction = sheet.construction } = change;
  const plain = {
    ...(isGiven(girths) && { girths }),
    ...(isGiven(lengths) && { lengths }),
    ...(isGiven(laid) && { laid }),
    ...(construction !== sheet.construction && { construction }),
  };
  return isGiven(plain) ? plain : null;
}

type Measures<T> = Readonly<Record<string, T>>;

/** Typed numbers nearer than this are the same, m. */
const SAME = 1e-6;

/** Of what is wanted, in the order of its names, what is not so already. */
const unlike = <T extends number | null>(
  asIs: Measures<number> = {},
  wanted: Measures<T> = {},
): Measures<T> =>
  Object.fromEntries(
    Object.entries(wanted)
      .filter(([name, value]) => {
        const before = asIs[name] ?? null;
        return value === null || before === null ? value !== before : Math.abs(value - before) > SAME;
      })
      .toSorted(([one], [other]) => (one < other ? -1 : 1)),
  );

const isGiven = (data: object): boolean => Object.keys(data).length > 0;
