/**
 * Rows as aligned text: the first column to the left, all others to the right, two blanks between.
 *
 * @param rows - The first is the heading. Rows may be shorter than it.
 * @param leftColumns - How many columns from the first on are words, set to the left.
 */
export function textTable(rows: readonly (readonly string[])[], leftColumns = 1): string {
  const columnCount = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columnCount }, (_, column) =>
    Math.max(...rows.map((row) => row[column]?.length ?? 0)),
  );
  return rows
    .map((row) =>
      row
        .map((cell, column) =>
          column < leftColumns ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
