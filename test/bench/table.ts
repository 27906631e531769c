/** Prints rows under a head, as a table that can be pasted into a document. */
export function printTable(head: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column].length)));
  const line = (cells: readonly string[]): string => `| ${cells.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
  console.log(['', line(head), `|${widths.map((width) => '-'.repeat(width + 2)).join('|')}|`, ...rows.map(line)].join('\n'));
}
