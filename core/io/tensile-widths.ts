import type { Finding } from '../fault/finding.ts';
import { readNumber } from './table-number.ts';
import type { DecimalMark } from './table-number.ts';
import type { TableBlocks, TableHeader } from './tensile-blocks.ts';
import type { ReadColumn } from './tensile-columns.ts';
import type { ColumnGroup } from './tensile-groups.ts';
import type { TableWish } from './tensile-table.ts';
import { isLength, mmFrom } from './tensile-units.ts';

type Rows = readonly (readonly string[])[];

/** So many equal readings of one strip are no coincidence. */
const LEAST_ROWS = 3;

/**
 * Takes a column "width" in which nothing changes while a strip is pulled for the width of the unstretched strip: a
 * fabric that is pulled narrows. A meaning that the user gave stays.
 */
export function widthsThatStay(
  rows: Rows,
  cut: TableBlocks,
  options: { readonly mark: DecimalMark; readonly wish: TableWish },
): { blocks: TableBlocks; findings: Finding[] } {
  const findings = new Map<number, Finding>();
  const changed = new Map<TableHeader, TableHeader>();
  for (const header of cut.headers) {
    const own = cut.blocks.filter((block) => block.header === header).map((block) => block.rows);
    const groups = header.groups.map((group): ColumnGroup => {
      const { width } = group;
      if (width === null || group.stripWidth !== null || width.from === 'wish') return group;
      if (width.unit === null || !isLength(width.unit)) return group;
      const value = ownWidth(rows, own, { group, width, mark: options.mark });
      if (value === null) return group;
      const facts = { column: width.column, header: width.header, widthMm: mmFrom(value, width.unit) };
      findings.set(width.column, { code: 'table/width-is-constant', facts });
      return { ...group, width: null, stripWidth: { ...width, meaning: 'stripWidth' } };
    });
    const meant = new Map(groups.map(({ stripWidth }) => [stripWidth?.column, stripWidth]));
    const columns = header.columns.map((column) => meant.get(column.column) ?? column);
    changed.set(header, { ...header, groups, columns });
  }
  const blocks = cut.blocks.map((block) => ({ ...block, header: changed.get(block.header)! }));
  return { blocks: { ...cut, headers: [...changed.values()], blocks }, findings: [...findings.values()] };
}

/** The width of the first strip if every strip keeps its own from first reading to last; else null. */
function ownWidth(
  rows: Rows,
  blocks: readonly (readonly number[])[],
  column: { readonly group: ColumnGroup; readonly width: ReadColumn; readonly mark: DecimalMark },
): number | null {
  const { group, width, mark } = column;
  const widths = new Map<string, number>();
  let count = 0;
  for (const [b, block] of blocks.entries()) {
    let strip = '';
    for (const r of block) {
      const cells = rows[r]!;
      const names = [group.specimen, group.direction].map((name) =>
        name === null ? '' : (cells[name.column - 1] ?? ''),
      );
      if (names.some((name) => name !== '')) strip = names.join('\n');
      const value = readNumber(cells[width.column - 1] ?? '', mark);
      if (typeof value !== 'number') continue;
      const key = `${b}\n${strip}`;
      if ((widths.get(key) ?? value) !== value) return null;
      widths.set(key, value);
      count++;
    }
  }
  const [first] = widths.values();
  return first === undefined || count < LEAST_ROWS * widths.size ? null : first;
}
