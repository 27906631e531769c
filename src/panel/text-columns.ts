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

/**
 * Comma-separated values after RFC 4180, with a byte order mark, without which spreadsheets take the
 * text for another one. A text that a spreadsheet would take for a formula gets an apostrophe first.
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return `\ufeff${rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('')}`;
}

function csvCell(cell: string | number | null): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
