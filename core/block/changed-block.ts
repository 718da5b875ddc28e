import { BLOCKS, type BlockSheet, type Construction, type SheetMeasure } from './blocks.ts';

/** Single measures of a spec sheet written otherwise; what is left out stays. m. */
export interface BlockChange {
  /** null takes one out that the block can do without. */
  readonly girths?: Readonly<Record<string, number | null>>;
  readonly lengths?: Readonly<Record<string, number>>;
  /** null gives the edge back to where the body has it. */
  readonly laid?: Readonly<Record<string, number | null>>;
  readonly construction?: Construction;
}

/** The sheet with single measures of it written otherwise; girths stay in the block's order, highest first. */
export function changedBlock(sheet: BlockSheet, change: BlockChange): BlockSheet {
  const { levels, laid: held } = BLOCKS[sheet.block];
  const { laid: laidBefore, ...rest } = sheet;
  const laid = among(held, { ...laidBefore, ...change.laid });
  return {
    ...rest,
    girths: among(namesOf(levels), { ...sheet.girths, ...change.girths }),
    lengths: { ...sheet.lengths, ...change.lengths },
    ...(Object.keys(laid).length > 0 && { laid }),
    construction: change.construction ?? sheet.construction,
  };
}

type Measures<T> = Readonly<Record<string, T>>;

const namesOf = (measures: readonly SheetMeasure[]): readonly string[] => measures.map(({ name }) => name);

/** Those that are given, in the order of their names; what is not among these comes last. */
function among(names: readonly string[], given: Measures<number | null>): Record<string, number> {
  const inOrder = [...names, ...Object.keys(given).filter((name) => !names.includes(name))];
  return Object.fromEntries(
    inOrder.flatMap((name) => {
      const value = given[name] ?? null;
      return value === null ? [] : [[name, value] as const];
    }),
  );
}
