import { describe, expect, it } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { drawFlatOutline } from '../../src/sheet/flat-outline.ts';
import { writeOutlineSvg } from '../../src/sheet/write-outline-svg.ts';

interface Element { readonly name: string; readonly attributes: Readonly<Record<string, string>>; readonly text: string }

/** A plain reader of well-formed XML, in this test only: every tag must be closed by its own, every attribute quoted. */
function readXml(source: string): Element[] {
  const elements: Element[] = [], open: string[] = [];
  let text = '';
  const unescape = (words: string): string => words.replace(/&(lt|gt|amp);/g, (_, name: string) => ({ lt: '<', gt: '>', amp: '&' })[name]!);
  for (const [, slash, name, rest, end, words] of source.replace(/^<\?xml[^?]*\?>/, '').matchAll(/<(\/?)([\w-]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/g)) {
    if (words !== undefined) { text = words; continue; }
    if (slash === '/') {
      if (open.pop() !== name) throw new Error(`</${name}> closes another element`);
      const place = elements.map((element) => element.name === name && element.text === '').lastIndexOf(true);
      elements[place] = { ...elements[place], text: unescape(text) };
    } else {
      elements.push({ name, attributes: Object.fromEntries([...rest.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key, value])), text: '' });
      if (end !== '/') open.push(name);
    }
    text = '';
  }
  if (open.length > 0) throw new Error(`<${open[0]}> is not closed`);
  return elements;
}

/** Points of a path of M, L, H, v and Z with absolute places, and where its pieces begin. */
function pointsOf(path: string): (readonly [number, number])[] {
  const points: (readonly [number, number])[] = [];
  for (const [, letter, numbers] of path.matchAll(/([MLHvZ])([^MLHvZ]*)/g)) {
    const values = numbers.trim().split(/\s+/).filter((word) => word !== '').map(Number), last = points.at(-1) ?? [0, 0];
    if (values.some((value) => !Number.isFinite(value))) throw new Error(`no number in ${numbers}`);
    if (letter === 'M' || letter === 'L') points.push([values[0], values[1]]);
    else if (letter === 'H') points.push([values[0], last[1]]);
    else if (letter === 'v') points.push([last[0], last[1] + values[0]]);
  }
  return points;
}

describe.each([
  ['decreased', {}], ['short-row', {}], ['slanted', { slantStitches: 4 }],
] as const)('the outline of a sock with a %s toe, 1:1', (kind, toe) => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: 14, rowsPer10cm: 20 }, foot: { ballGirthMm: 240, lengthMm: 240 }, leg: { lengthMm: 60 },
    toe: { ...toe, kind: kind === 'slanted' ? 'decreased' : kind },
  });
  const { pose: { positions }, measures, lines } = poseSock(sock!, 'flat');
  const source = writeOutlineSvg(drawFlatOutline(sock!.fabric, positions)!, { title: 'A & B <sock>\u0001', details: ['68 stitches', 'Für Jürgen'], checkLine: '5 cm' });
  const elements = readXml(source), svg = elements[0];
  const box = svg.attributes['viewBox'].split(' ').map(Number);
  const outline = pointsOf(elements.find(({ attributes }) => attributes['id'] === 'outline')!.attributes['d']);
  const along = (axis: 0 | 1): number[] => [Math.min(...outline.map((point) => point[axis])), Math.max(...outline.map((point) => point[axis]))];

  it('is drawn in millimetres', () => {
    expect(svg.attributes['width']).toBe(`${box[2].toFixed(2)}mm`);
    expect(svg.attributes['height']).toBe(`${box[3].toFixed(2)}mm`);
  });

  // The cloth's own loops are the check: a template that is smaller than they are would cut into the sock.
  it('reaches as far as the cloth does', () => {
    const [left, right] = along(0), [top, bottom] = along(1), xs = [], zs = [];
    for (let v = 0; v < sock!.fabric.vertexCount; v++) {
      xs.push(positions[3 * v]);
      zs.push(-positions[3 * v + 2]);
    }
    // Within a third of a stitch (7 mm wide, 5 mm high), to which the fold may fall between two wales.
    for (const [drawn, cloth] of [[left, Math.min(...xs)], [right, Math.max(...xs)], [top, Math.min(...zs)], [bottom, Math.max(...zs)]]) expect(Math.abs(drawn - cloth)).toBeLessThan(2.4);
  });

  it('is as long along the foot as the foot is measured', () => {
    // The measure's own line begins at the heel's rear and runs along the foot; the cuff may lean farther back.
    const [fromX, , fromZ, toX, , toZ] = lines.footLengthMm!, axis = [(toX - fromX) / measures.footLengthMm!, (fromZ - toZ) / measures.footLengthMm!];
    const nearest = Math.min(...outline.map(([x, y]) => Math.hypot(x - fromX, y + fromZ)));
    expect(nearest).toBeLessThan(2.5);
    const reach = Math.max(...outline.map(([x, y]) => axis[0] * (x - fromX) + axis[1] * (y + fromZ)));
    expect(Math.abs(reach - measures.footLengthMm!)).toBeLessThan(1);
  });

  it('has a line of 5 cm, and says which sock it is, whatever its name is', () => {
    const [from, to] = pointsOf(elements.find(({ attributes }) => attributes['id'] === 'check-line')!.attributes['d']);
    expect([to[0] - from[0], to[1] - from[1]]).toEqual([50, 0]);
    const words = elements.filter(({ name }) => name === 'text');
    expect(words.map(({ text }) => text)).toEqual(['5 cm', 'A & B <sock>', '68 stitches', 'Für Jürgen']);
    const inside = [...outline, from, to, ...words.map(({ attributes }) => [Number(attributes['x']), Number(attributes['y'])] as const)];
    for (const [x, y] of inside) {
      expect(x >= box[0] && x <= box[0] + box[2]).toBe(true);
      expect(y >= box[1] && y <= box[1] + box[3]).toBe(true);
    }
  });
});
