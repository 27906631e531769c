import type { Sheet, SheetBlock, SheetPart, SheetTable } from './sheet.ts';

/** Characters of a line of words; tables are as wide as they are. */
const LINE = 84;

/**
 * A sheet as plain text: parts under underlined titles, tables under their caption with two blanks or more between
 * cells, everything else broken at blanks. The same sheet gives the same text.
 */
export function writeSheetText({ title, subtitle, parts }: Sheet): string {
  return `${underlined(oneLine(title), '=')}\n${subtitle}\n\n${parts.map(writePart).join('\n')}`;
}

function writePart({ title, at, blocks }: SheetPart): string {
  const readings = at.length === 0 ? [] : [`${at.map(([label, value]) => `${label}: ${value}`).join('   ')}\n`];
  return `${underlined(title, '-')}\n${[...readings, ...blocks.map(writeBlock)].join('\n')}`;
}

function writeBlock(block: SheetBlock): string {
  switch (block.kind) {
    case 'text': return wrap(block.text, '');
    case 'list': return block.items.map((item) => wrap(item, '- ')).join('');
    case 'facts': return block.rows.map(([label, value]) => wrap(`${label}: ${value}`, '')).join('');
    case 'table': return writeTable(block);
  }
}

function writeTable({ caption, head, rows }: SheetTable): string {
  const lines = [head, ...rows].map((cells) => cells.map(oneLine)), widths = head.map((_, column) => Math.max(...lines.map((cells) => lengthOf(cells[column]))));
  const written = lines.map((cells) => cells.map((cell, column) => cell + ' '.repeat(widths[column] - lengthOf(cell))).join('  ').trimEnd());
  return `${caption}:\n${written.map((line) => `  ${line}\n`).join('')}`;
}

/** Names are a person's own and may hold anything. */
const oneLine = (words: string): string => words.replace(/\s+/g, ' ').trim();
const lengthOf = (words: string): number => [...words].length;
const underlined = (words: string, line: string): string => `${words}\n${line.repeat(Math.max(3, lengthOf(words)))}`;

function wrap(words: string, mark: string): string {
  const lines: string[] = [];
  let open = mark;
  for (const word of oneLine(words).split(' ')) {
    const isFresh = open === mark || open.trim() === '';
    if (!isFresh && lengthOf(open) + 1 + lengthOf(word) > LINE) {
      lines.push(open);
      open = ' '.repeat(mark.length) + word;
    } else open += isFresh ? word : ` ${word}`;
  }
  return [...lines, open].map((line) => `${line}\n`).join('');
}
