import type { CLOSE_EN } from './close-en.ts';

const von = { left: 'links', right: 'rechts' };
const isMany = (count: number, wraps: number): boolean => count + wraps > 1;
const wraps = (count: number): string => (count === 0 ? '' : count === 1 ? ' und ihr Wickel' : ` und ihre ${count} Wickel`);
/** What hangs on a needle, as that which acts. */
const own = (count: number, wrapCount: number): string => `${count === 1 ? 'ihre Masche' : `ihre ${count} Maschen`}${wraps(wrapCount)}`;
const old = (count: number, wrapCount: number): string =>
  `${count === 1 ? 'die alte Masche' : `die ${count} alten Maschen`}${wrapCount === 0 ? '' : wrapCount === 1 ? ' und der Wickel' : ` und die ${wrapCount} Wickel`}`;
const withOwn = (count: number, wrapCount: number): string =>
  `${count === 1 ? 'ihrer Masche' : `ihren ${count} Maschen`}${wrapCount === 0 ? '' : wrapCount === 1 ? ' und ihrem Wickel' : ` und ihren ${wrapCount} Wickeln`}`;
const through = (count: number, wrapCount: number): string =>
  `${count === 1 ? 'die alte Masche' : `die ${count} alten Maschen`}${wrapCount === 0 ? '' : wrapCount === 1 ? ' und den Wickel' : ` und die ${wrapCount} Wickel`}`;

export const CLOSE_DE: typeof CLOSE_EN = {
  open: 'Nahaufnahme',
  openHelp: 'Ein paar Nadeln von Nahem: wie jede Masche dieser Reihe durch eine andere gezogen wird',
  name: 'Nahaufnahme dieser Reihe',
  title: (first, last, bed) => `Nadeln ${first} bis ${last}, ${bed}`,
  bothBeds: 'beide Betten',
  close: 'Nahaufnahme schließen',
  large: { name: 'Große Nahaufnahme', isOn: 'Wieder die ganze Seite', isOff: 'Die Nahaufnahme allein, für den Beamer' },
  picture: 'Nadeln und Garn von Nahem. Pfeiltasten drehen das Bild.',
  slider: 'Durch diese Reihe',
  percent: (percent) => `${percent} %`,
  play: 'Nahaufnahme abspielen',
  pause: 'Nahaufnahme anhalten',
  back: 'Einen Schritt zurück',
  step: 'Einen Schritt weiter',
  nextNeedle: 'Nächste Nadel',
  needlesLeft: 'Nadeln weiter links',
  needlesRight: 'Nadeln weiter rechts',
  from: 'Gesehen',
  sides: { knitter: 'von vorn', along: 'am Bett entlang', behind: 'von hinten' },
  pale: 'In voller Farbe: der Faden dieser Reihe; etwas gedämpft: wodurch er gerade gezogen wird; mehr: was schon gestrickt war. Langsamer und weiter auseinander gezeigt als an der Maschine, wo mehrere Nadeln zugleich unterwegs sind.',
  noPass: 'Hier wird nichts durch eine andere Masche gezogen. Bei der nächsten Reihe ist es von Nahem zu sehen.',
  noPicture: 'Der Browser gibt hier kein Bild (WebGL 2 fehlt). Die Worte erzählen es trotzdem Schritt für Schritt.',
  lost: 'Das Grafiksystem hat das Bild weggenommen; es kommt wieder, sobald es geht.',
  needle: (label) => `Nadel ${label}`,
  needleOn: (label, bed) => `Nadel ${label}, ${bed}`,
  told: {
    rest: (needle, count, wrapCount, from) => `${needle}: ${own(count, wrapCount)} ${isMany(count, wrapCount) ? 'hängen' : 'hängt'} im Haken. Der Schlitten kommt von ${von[from]}.`,
    clear: (needle, count, wrapCount) =>
      `${needle} geht nach vorn: ${old(count, wrapCount)} ${isMany(count, wrapCount) ? 'öffnen' : 'öffnet'} die Zunge und ${isMany(count, wrapCount) ? 'gleiten' : 'gleitet'} hinter sie auf den Schaft.`,
    feed: (needle) => `${needle} steht vorn, der Haken ist offen: Der Schlitten legt den neuen Faden über sie.`,
    close: (needle, count, wrapCount) =>
      `${needle} geht zurück: Der Haken nimmt den neuen Faden, und ${old(count, wrapCount)} ${isMany(count, wrapCount) ? 'klappen' : 'klappt'} die Zunge darüber zu.`,
    'cast-off': (needle, count, wrapCount) =>
      `${needle}: ${old(count, wrapCount)} ${isMany(count, wrapCount) ? 'gleiten' : 'gleitet'} über die geschlossene Zunge vom Haken; die neue Masche geht hindurch.`,
    draw: (needle, count, wrapCount) => `${needle} hat die neue Masche durch ${through(count, wrapCount)} gezogen; wie tief sie zieht, bestimmt, wie lang die Masche wird.`,
    done: (needle, count, wrapCount) =>
      `${needle}: Die neue Masche hängt im Haken, ${old(count, wrapCount)} ${isMany(count, wrapCount) ? 'liegen' : 'liegt'} um ihre Füße: eine Reihe Gestrick mehr.`,
    held: (needle, count, wrapCount) => `${needle} wird gehalten: Sie bleibt mit ${withOwn(count, wrapCount)} vorn und strickt nicht, während der Schlitten vorbeigeht.`,
    idle: (needle) => `${needle} strickt in dieser Reihe nicht.`,
    wrap: (needle) => `${needle} wird gehalten und nun umwickelt: Der Faden wird vorn um ihren Haken, unter ihrem Schaft durch und nach oben gelegt. Die nächste Reihe schließt ihn um den Schaft.`,
    wrapped: (needle) => `${needle} ist gehalten und umwickelt: Ihre Masche und der Wickel warten auf dem Schaft, bis sie wieder strickt.`,
  },
};
