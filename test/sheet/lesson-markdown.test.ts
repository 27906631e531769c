import { describe, expect, it } from 'vitest';
import { plainText, readBlocks, readInlines } from '../../src/sheet/lesson-markdown.ts';
import type { Inline } from '../../src/sheet/lesson.ts';

/** As HTML, to hold it against the specification's own examples. Written here; the page makes elements, not markup. */
function html(parts: readonly Inline[]): string {
  const escape = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
  return parts.map((part) => {
    switch (part.kind) {
      case 'text': return escape(part.text);
      case 'code': return `<code>${escape(part.text)}</code>`;
      case 'strong': return `<strong>${html(part.parts)}</strong>`;
      case 'emphasis': return `<em>${html(part.parts)}</em>`;
      case 'link': return `<a href="${part.href}">${html(part.parts)}</a>`;
      case 'figure': return `[${part.of} ${part.name}]`;
      default: return part satisfies never;
    }
  }).join('');
}

describe('within a paragraph', () => {
  // Published: the CommonMark specification 0.31.2 (spec.commonmark.org), examples by number, their outer <p> left out; 0: our own.
  const cases: readonly (readonly [number, string, string])[] = [
    [12, '\\!\\"\\#\\$\\%\\&\\\'\\(\\)\\*\\+\\,\\-\\.\\/\\:\\;\\<\\=\\>\\?\\@\\[\\\\\\]\\^\\_\\`\\{\\|\\}\\~', '!&quot;#$%&amp;\'()*+,-./:;&lt;=&gt;?@[\\]^_`{|}~'],
    [328, '`foo`', '<code>foo</code>'],
    [329, '`` foo ` bar ``', '<code>foo ` bar</code>'],
    [350, '*foo bar*', '<em>foo bar</em>'],
    [351, 'a * foo bar*', 'a * foo bar*'],
    [355, 'foo*bar*', 'foo<em>bar</em>'],
    [357, '_foo bar_', '<em>foo bar</em>'],
    [360, 'foo_bar_', 'foo_bar_'],
    [378, '**foo bar**', '<strong>foo bar</strong>'],
    [379, '** foo bar**', '** foo bar**'],
    [382, '__foo bar__', '<strong>foo bar</strong>'],
    [384, '__\nfoo bar__', '__\nfoo bar__'],
    [397, '**foo bar **', '**foo bar **'],
    [0, '[turn](https://example.org/a)', '<a href="https://example.org/a">turn</a>'],
    [0, '[turn](javascript:alert(1))', '[turn](javascript:alert(1))'],
    [0, '[turn](http://example.org/)', 'turn'],
    [0, '[turn](https://user@example.org/)', 'turn'],
    [0, '[turn](data:text/html,x)', 'turn'],
    [0, '![a sock](https://example.org/sock.png)', 'a sock'],
    [0, '<img src=x onerror=alert(1)>', '&lt;img src=x onerror=alert(1)&gt;'],
    [0, '**W** is {W}, it was {plain.W}; {n} and {heel-rows}', '<strong>W</strong> is [this W], it was [plain W]; [this n] and [this heel-rows]'],
  ];
  it.each(cases)('example %i: %s', (_, text, wanted) => { expect(html(readInlines(text))).toBe(wanted); });

  it('names what is no number of a sock, and shows it as it stands', () => {
    const named: string[] = [];
    expect(html(readInlines('{width} and {W', (name) => { named.push(name); }))).toBe('{width} and {W');
    expect(named).toEqual(['width']);
  });

  it('gives its words to a voice', () => {
    expect(plainText(readInlines('*Turn* down to **{W}** [here](https://example.org)'), ({ name }) => (name === 'W' ? '8' : ''))).toBe('Turn down to 8 here');
  });
});

describe('paragraphs', () => {
  const read = (text: string): readonly unknown[] => readBlocks(text.split('\n').map((line, i) => ({ text: line, line: i + 1 })), () => undefined).map((block) => {
    switch (block.kind) {
      case 'list': return [block.isNumbered ? 'ol' : 'ul', ...block.items.map(html)];
      case 'code': return ['pre', block.text];
      case 'mark': return [block.mark, html(block.parts)];
      case 'paragraph': case 'heading': return [block.kind, html(block.parts)];
      default: return block satisfies never;
    }
  });
  it.each([
    ['lines that belong together', 'one\ntwo\n\nthree', [['paragraph', 'one two'], ['paragraph', 'three']]],
    ['a list', 'before\n- one\n- two\n  goes on\n\nafter', [['paragraph', 'before'], ['ul', 'one', 'two goes on'], ['paragraph', 'after']]],
    ['a numbered list', '1. one\n2) two', [['ol', 'one', 'two']]],
    ['two kinds of list', '- one\n1. two', [['ul', 'one'], ['ol', 'two']]],
    ['headings, rules, quotations', '### A\n> said\n\n---\n***\nB', [['heading', 'A'], ['paragraph', 'said'], ['paragraph', 'B']]],
    ['code', '```\n- no list\n## no heading\n```\nafter', [['pre', '- no list\n## no heading'], ['paragraph', 'after']]],
    ['marks, plain and in emphasis', 'Look: here\nTry: that\n\n**Question:** why?\n\n**Answer**: so\nit is', [['look', 'here'], ['try', 'that'], ['question', 'why?'], ['answer', 'so it is']]],
    ['marks in German', 'Schau hin: da\n\nProbiere: das\n\nFrage: warum?\n\nAntwort: darum', [['look', 'da'], ['try', 'das'], ['question', 'warum?'], ['answer', 'darum']]],
    ['words that only look like marks', 'Looking: away\n\nTime: 3:30', [['paragraph', 'Looking: away'], ['paragraph', 'Time: 3:30']]],
  ])('%s', (_, text, wanted) => { expect(read(text)).toEqual(wanted); });
});
