/** A knitting sheet in plain English text, taken apart again. Knows its headings and tables, and nothing of the code that wrote them. */
export interface ReadSheet {
  /** Title of a part to its words, tables taken out, on one line. */
  readonly words: ReadonlyMap<string, string>;
  /** Part and caption, joined by a slash, to rows of cells by their head. */
  readonly tables: ReadonlyMap<string, readonly Readonly<Record<string, string>>[]>;
}

export function readSheet(text: string): ReadSheet {
  const words = new Map<string, string>(), tables = new Map<string, Record<string, string>[]>();
  const lines = text.split('\n');
  let part = '', i = 0;
  while (i < lines.length) {
    const line = lines[i], next = lines[i + 1] ?? '';
    if (/^-{3,}$/.test(next)) {
      part = line;
      words.set(part, '');
      i += 2;
    } else if (line.endsWith(':') && /^ {2}\S/.test(next)) {
      const from = i + 1;
      i = from;
      while (/^ {2}\S/.test(lines[i] ?? '')) i += 1;
      tables.set(`${part}/${line.slice(0, -1)}`, readRows(lines.slice(from, i)));
    } else {
      words.set(part, `${words.get(part) ?? ''} ${line.trim()}`.trim());
      i += 1;
    }
  }
  return { words, tables };
}

/** Two blanks at least stand between cells. */
function readRows([head, ...rows]: readonly string[]): Record<string, string>[] {
  const cellsOf = (line: string): string[] => line.trim().split(/ {2,}/);
  const names = cellsOf(head);
  return rows.map((row) => Object.fromEntries(cellsOf(row).map((cell, column) => [names[column], cell])));
}

/** The numbers that a pattern finds in the words of a part. */
export function numbersIn({ words }: ReadSheet, part: string, pattern: RegExp): number[] {
  const match = pattern.exec(words.get(part) ?? '');
  if (match === null) throw new Error(`the part ${part} does not say ${pattern.source}: ${words.get(part) ?? 'it is missing'}`);
  return match.slice(1).map(Number);
}

export function wordsIn({ words }: ReadSheet, part: string, pattern: RegExp): string[] {
  const match = pattern.exec(words.get(part) ?? '');
  if (match === null) throw new Error(`the part ${part} does not say ${pattern.source}: ${words.get(part) ?? 'it is missing'}`);
  return match.slice(1);
}
