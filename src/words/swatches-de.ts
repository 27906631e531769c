import { countIn } from './count-words.ts';
import type { SWATCHES_EN } from './swatches-en.ts';

export const SWATCHES_DE: typeof SWATCHES_EN = {
  title: 'Proben',
  advice: [
    'Stricken, wie der Fuß gestrickt wird: dasselbe Garn, dieselbe Fadenspannung, glatt, wenn möglich als Schlauch. Anderthalbmal so breit und so hoch wie die gezählte Fläche, mit einigen Abfallreihen an beiden Enden.',
    'Eine Stunde hinlegen, dann zählen. Danach waschen und trocknen, wie die Socke gewaschen wird, einen Tag flach ruhen lassen, ungespannt und ungedehnt, und noch einmal zählen.',
    'In der Mitte zählen, fern von Rändern und Enden. Die erste und die letzte Masche mit einem Faden markieren; halbe Maschen zählen mit. Die breiteste Fläche zählen, die flach liegt.',
    'Zwei oder drei Proben zählen, oder eine an zwei oder drei Stellen: So weit sie sich unterscheiden, so weit darf es die Socke.',
  ],
  drawing: 'Ein Strickstück. Ein Quadrat in seiner Mitte, fern von den Rändern, wird mit einem Lineal gemessen, entlang der Maschen und entlang der Reihen.',
  use: 'Diese Maschenprobe nehmen',
  keep: 'Nur die Zählungen behalten',
  keepHint: 'Die Proben kommen in die Datei der Socke; ihre Maschenprobe bleibt.',
  add: 'Probe hinzufügen',
  table: 'Tabelle der Proben',
  heads: { stitches: 'Maschen', rows: 'Reihen', counted: 'gezählt' },
  over: (unit) => `auf, ${unit}`,
  per: { cm: 'auf 10 cm', in: 'auf 1 Zoll' },
  before: 'vor dem Waschen',
  after: 'nach dem Waschen',
  fields: { stitches: 'Maschen', widthMm: 'Breite', rows: 'Reihen', heightMm: 'Höhe' },
  fieldOf: (field, swatch, unit) => `${field} von Probe ${swatch}${unit === null ? '' : `, ${unit}`}`,
  counted: (swatch) => `Probe ${swatch} wurde gezählt`,
  takeOut: (swatch) => `Probe ${swatch} entfernen`,
  limits: (field, least, most, unit) => `${field}: von ${least} bis ${most}${unit === null ? '' : ` ${unit}`}.`,
  none: 'Maschen und Reihen wenigstens einer Probe eintragen.',
  gauge: (stitches, rows, per, count, isWashed) =>
    `${stitches} Maschen und ${rows} Reihen ${per}, aus ${isWashed ? countIn('de', count, 'gewaschenen Probe', 'gewaschenen Proben') : countIn('de', count, 'ungewaschenen Probe', 'ungewaschenen Proben')}`,
  onlyOne: 'Eine Probe sagt nicht, wie gleichmäßig Sie stricken: Zählen Sie eine zweite.',
  differ: (stitches, rows, stitchMean, rowMean) =>
    `Sie unterscheiden sich um ±${stitches} Maschen und ±${rows} Reihen (eine Standardabweichung), ihr Mittel ist also auf ±${stitchMean} und ±${rowMean} sicher.`,
  unwashed: 'Geplant wird nach der gewaschenen Maschenprobe: Gestrick geht bei der ersten Wäsche ein oder auf. Waschen und noch einmal zählen.',
  washing: (width, length) => `In der Wäsche: Das Gestrick ${width} und ${length}.`,
  keeps: { width: 'behält seine Breite', length: 'behält seine Länge' },
  changes: { width: (percent, isLess) => `${isLess ? 'verliert' : 'gewinnt'} ${percent} % seiner Breite`, length: (percent, isLess) => `${isLess ? 'verliert' : 'gewinnt'} ${percent} % seiner Länge` },
  sock: (girthOff, girth, lengthOff, length) => `Für diese Socke sind das ±${girthOff} von ${girth} Umfang und ±${lengthOff} von ${length} Länge.`,
};
