/** An element of a drawing as a reader sees it that knows nothing of who wrote it. */
export interface SvgElement { readonly tag: string; readonly attributes: Readonly<Record<string, string>>; readonly children: SvgElement[]; text: string }

const NAMES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function decode(text: string): string {
  return text.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    const sign = NAMES[name];
    if (sign === undefined || !whole.endsWith(';')) throw new Error(`not well-formed: ${whole}`);
    return sign;
  });
}

function readAttributes(source: string): Record<string, string> {
  const attributes: Record<string, string> = {};
  for (const [, name, value] of source.matchAll(/([\w:-]+)="([^"]*)"/g)) {
    if (name in attributes) throw new Error(`not well-formed: ${name} twice`);
    attributes[name] = decode(value);
  }
  return attributes;
}

/** Reads a document of elements, attributes and text by the rules of XML 1.0 (well-formedness). @throws Error where it breaks them. */
export function readSvg(source: string): SvgElement {
  const root: SvgElement = { tag: '', attributes: {}, children: [], text: '' }, open = [root];
  const pattern = /<(\/?)([A-Za-z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)|(<)/g;
  for (const [, end, tag, attributes, isEmpty, text, stray] of source.matchAll(pattern)) {
    const inner = open.at(-1)!;
    if (stray !== undefined) throw new Error('not well-formed: a stray <');
    if (text !== undefined) inner.text += decode(text);
    else if (end === '/') {
      if (open.pop()?.tag !== tag) throw new Error(`not well-formed: </${tag}> closes <${inner.tag}>`);
    } else {
      const element: SvgElement = { tag, attributes: readAttributes(attributes), children: [], text: '' };
      inner.children.push(element);
      if (isEmpty === '') open.push(element);
    }
  }
  if (open.length !== 1 || root.children.length !== 1) throw new Error('not well-formed: no single root');
  return root.children[0];
}

/** All elements under one, itself included. */
export function allOf(element: SvgElement): SvgElement[] {
  return [element, ...element.children.flatMap(allOf)];
}
