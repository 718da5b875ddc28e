/** Cells as they come from a spreadsheet or a tester's printout: rows of tab-, semicolon- or space-separated texts. */
export function pastedCells(text: string): readonly (readonly string[])[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  while (lines.length > 0 && lines.at(-1)!.trim() === '') lines.pop();
  const separator = lines.some((line) => line.includes('\t'))
    ? '\t'
    : lines.some((line) => line.includes(';'))
      ? ';'
      : /\s+/;
  return lines.map((line) =>
    (typeof separator === 'string' ? line : line.trim()).split(separator).map((cell) => cell.trim()),
  );
}

/** More than one cell: only then is a paste laid into a table instead of into the one field. */
export const isSeveralCells = (cells: readonly (readonly string[])[]): boolean =>
  cells.length > 1 || (cells[0]?.length ?? 0) > 1;

/**
 * A table with pasted cells laid over it from one cell on, to the right and down; what does not fit to the right is left
 * out, rows are added as needed.
 *
 * @param rows - Every row has `columnCount` texts.
 */
export function withPasted(
  rows: readonly (readonly string[])[],
  pasted: readonly (readonly string[])[],
  at: { readonly row: number; readonly column: number; readonly columnCount: number },
): readonly (readonly string[])[] {
  const height = Math.max(rows.length, at.row + pasted.length);
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: at.columnCount }, (_, column) => {
      const laid = pasted[row - at.row]?.[column - at.column];
      return laid ?? rows[row]?.[column] ?? '';
    }),
  );
}
