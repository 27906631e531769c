/** Lines of a table in plain text: every column as wide as its widest entry, the first one to the left, the others to the right. */
export function textColumns(rows: readonly (readonly string[])[]): string {
  const widths: number[] = [];
  for (const row of rows) row.forEach((cell, column) => { widths[column] = Math.max(widths[column] ?? 0, [...cell].length); });
  const pad = (cell: string, column: number): string => {
    const blank = ' '.repeat((widths[column] ?? 0) - [...cell].length);
    return column === 0 ? cell + blank : blank + cell;
  };
  return rows.map((row) => `${row.map(pad).join('  ').trimEnd()}\n`).join('');
}
