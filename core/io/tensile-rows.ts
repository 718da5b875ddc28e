import { Fault } from '../fault/fault.ts';
import type { Separator } from './delimited-text.ts';
import type { TableBlock } from './tensile-blocks.ts';

/**
 * Every row of readings has as many cells as its header; empty ones at the end do not count.
 *
 * Cut at spaces, a row with a cell missing cannot tell which: it is refused too.
 *
 * @throws {Fault} `table/ragged-row`, `table/commas-both-ways`.
 */
export function requireEvenRows(
  rows: readonly (readonly string[])[],
  blocks: readonly TableBlock[],
  separator: Separator,
): void {
  for (const block of blocks) {
    const columnCount = block.header.columns.length;
    for (const r of block.rows) {
      const cells = rows[r]!;
      const cellCount = cells.findLastIndex((cell) => cell !== '') + 1;
      const facts = { row: r + 1, column: columnCount + 1, cellCount, columnCount };
      if (cellCount > columnCount && separator === 'comma') throw new Fault('table/commas-both-ways', facts);
      if (cellCount > columnCount) throw new Fault('table/ragged-row', facts);
      if (separator === 'spaces' && cellCount < columnCount)
        throw new Fault('table/ragged-row', { ...facts, column: cellCount + 1 });
    }
  }
}
