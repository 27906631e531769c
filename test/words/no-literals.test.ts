import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';
import { expect, it } from 'vitest';

/**
 * A literal is visible if it has two letters in a row and stands where the page shows it: text of an element or a
 * button, a label or a tip, a notice, the title of a sheet; or, anywhere, if it begins with a capital and has a space
 * in it, as a sentence has. What is thrown is for us, not for the page.
 */
const SHOWN_NAMES = new Set(['aria-label', 'aria-valuetext', 'aria-roledescription', 'title', 'placeholder', 'alt', 'label']);
const SHOWN_PROPERTIES = new Set(['textContent', 'innerText', 'innerHTML', 'title', 'ariaLabel', 'placeholder']);
/** From which argument on a call shows what it is given. */
const SHOWN_ARGUMENTS: Readonly<Record<string, number>> = { el: 2, button: 0, setText: 1, tell: 1, createDialog: 1, addFolder: 0 };

/** Units stand as they are in every language (the International System's, and `in` for the page's inches). */
const UNITS = /\b(?:mmHg|mm|cm|in|kg)\b/g;
/** Names of keys, as ARIA has them, and the program's own. */
const NAMES: readonly string[] = ['Control+Shift+Z Control+Y', 'Heelwright: '];
/** The way of a line in a drawing. */
const PATH = /^M-?[\d.]/;

function findLiterals(file: string, text = readFileSync(file, 'utf8')): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true), found = new Set<string>();
  const keep = (node: ts.Node, words: string): void => {
    if (/\p{L}{2}/u.test(words.replace(UNITS, '')) && !NAMES.includes(words) && !PATH.test(words)) found.add(`${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${words}`);
  };
  const show = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node)) keep(node, node.text);
    else if (ts.isTemplateExpression(node)) {
      for (const part of [node.head, ...node.templateSpans.map(({ literal }) => literal)]) keep(part, part.text);
      for (const { expression } of node.templateSpans) show(expression);
    } else if (ts.isConditionalExpression(node)) { show(node.whenTrue); show(node.whenFalse); }
    else if (ts.isParenthesizedExpression(node) || ts.isSpreadElement(node)) show(node.expression);
    else if (ts.isBinaryExpression(node) && [ts.SyntaxKind.PlusToken, ts.SyntaxKind.QuestionQuestionToken, ts.SyntaxKind.BarBarToken].includes(node.operatorToken.kind)) { show(node.left); show(node.right); }
  };
  const visit = (node: ts.Node): void => {
    if (ts.isThrowStatement(node) || ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isCallExpression(node)) {
      const name = ts.isPropertyAccessExpression(node.expression) ? node.expression.name.text : node.expression.getText(source), from = SHOWN_ARGUMENTS[name] ?? Infinity;
      node.arguments.forEach((argument, place) => { if (place >= from) show(argument); });
      const [attribute, value] = node.arguments;
      if (name === 'setAttribute' && ts.isStringLiteralLike(attribute) && SHOWN_NAMES.has(attribute.text)) show(value);
    }
    visitAssignment(node);
    if (ts.isStringLiteralLike(node) && /^\p{Lu}.* /u.test(node.text)) keep(node, node.text);
    if (ts.isTemplateExpression(node) && /^\p{Lu}.* /u.test(node.head.text)) keep(node, node.head.text);
    ts.forEachChild(node, visit);
  };
  const visitAssignment = (node: ts.Node): void => {
    if (ts.isPropertyAssignment(node) && (ts.isStringLiteralLike(node.name) || ts.isIdentifier(node.name)) && SHOWN_NAMES.has(node.name.text)) show(node.initializer);
    if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.EqualsToken && ts.isPropertyAccessExpression(node.left) && SHOWN_PROPERTIES.has(node.left.name.text)) show(node.right);
  };
  visit(source);
  return [...found];
}

const ROOMS = ['src/panel', 'src/view', 'src/main'];
const FILES = [...ROOMS.flatMap((room) => readdirSync(room).filter((name) => name.endsWith('.ts')).map((name) => `${room}/${name}`)), 'src/main.ts'];

it('finds what it is to find', () => {
  const found = findLiterals('made.ts', `
    const head = 'A sentence of ours', unit = 'cm';
    el('p', { class: 'two words', title: 'tip' }, isOn ? 'on' : \`\${count} off\`);
    setText(node, 'shown'); node.textContent = 'written'; button('press', { 'aria-label': \`press \${name}\` }, act);
    el('td', {}, \`\${length} cm\`); throw new Error('Nobody sees this one');`);
  expect(found.map((line) => line.replace(/^made\.ts:\d+ /, ''))).toEqual(['A sentence of ours', 'on', ' off', 'tip', 'shown', 'written', 'press', 'press ']);
});

it('no text that a person sees stands outside of src/words', () => {
  expect(FILES.length).toBeGreaterThan(80);
  expect(FILES.flatMap((file) => findLiterals(file))).toEqual([]);
});
