import { countIn } from './count-words.ts';

/** Swatches and the gauge that they give. */
export const SWATCHES_EN = {
  title: 'Swatches',
  // Common practice, no source.
  advice: [
    'Knit it as the foot will be knitted: same yarn, same tension, plain, as a tube if you can. Half as wide again as the patch that you count, and as high, with some waste rows at both ends.',
    'Lay it down for an hour, then count. Then wash and dry it as the sock will be washed, let it rest flat for a day, unpinned and unstretched, and count again.',
    'Count in the middle, away from edges and ends. Mark the first and last stitch with a thread; half stitches count. Count the widest patch that lies flat.',
    'Count two or three swatches, or one in two or three places: how far they differ is how far the sock may.',
  ],
  drawing: 'A knitted patch. A square in its middle, away from the edges, is measured with a ruler, along the stitches and along the rows.',
  use: 'Use this gauge',
  keep: 'Keep the counts only',
  keepHint: 'The swatches go into the sock’s file; its gauge stays.',
  add: 'Add a swatch',
  table: 'Table of swatches',
  heads: { stitches: 'stitches', rows: 'rows', counted: 'counted' },
  over: (unit: string) => `over, ${unit}`,
  per: { cm: 'in 10 cm', in: 'to the inch' },
  before: 'before washing',
  after: 'after washing',
  fields: { stitches: 'Stitches', widthMm: 'Width', rows: 'Rows', heightMm: 'Height' },
  fieldOf: (field: string, swatch: number, unit: string | null) => `${field} of swatch ${swatch}${unit === null ? '' : `, ${unit}`}`,
  counted: (swatch: number) => `Swatch ${swatch} was counted`,
  takeOut: (swatch: number) => `Take out swatch ${swatch}`,
  limits: (field: string, least: string, most: string, unit: string | null) => `${field}: from ${least} to ${most}${unit === null ? '' : ` ${unit}`}.`,
  none: 'Put in stitches and rows of one swatch at least.',
  gauge: (stitches: string, rows: string, per: string, count: number, isWashed: boolean) =>
    `${stitches} stitches and ${rows} rows ${per}, from ${isWashed ? countIn('en', count, 'washed swatch', 'washed swatches') : countIn('en', count, 'unwashed swatch', 'unwashed swatches')}`,
  onlyOne: 'One swatch does not tell how even your knitting is: count a second one.',
  differ: (stitches: string, rows: string, stitchMean: string, rowMean: string) =>
    `They differ by ±${stitches} stitches and ±${rows} rows (one standard deviation), so that their mean is sure to ±${stitchMean} and ±${rowMean}.`,
  unwashed: 'A sock is planned by its washed gauge: cloth goes in or out with the first washing. Wash, and count again.',
  washing: (width: string, length: string) => `In washing the cloth ${width} and ${length}.`,
  keeps: { width: 'keeps its width', length: 'keeps its length' },
  changes: { width: (percent: string, isLess: boolean) => `${isLess ? 'loses' : 'gains'} ${percent} % of its width`, length: (percent: string, isLess: boolean) => `${isLess ? 'loses' : 'gains'} ${percent} % of its length` },
  sock: (girthOff: string, girth: string, lengthOff: string, length: string) => `For this sock that is ±${girthOff} of ${girth} girth and ±${lengthOff} of ${length} length.`,
};
