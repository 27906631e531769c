import type { STITCH_EN } from './stitch-en.ts';

export const STITCH_DE: typeof STITCH_EN = {
  card: 'Die gewählte Masche',
  kinds: {
    castOn: 'Anschlagmasche', knit: 'Rechte Masche', purl: 'Linke Masche', wrap: 'Wickel', cornerWrap: 'Eckwickel', graft: 'Maschenstich', bindOff: 'Abgekettete Masche',
  },
  place: (section, pass, round, needle, bed) =>
    `${section}${pass === null ? '' : `: Reihe ${pass}`}${round === '' ? '' : `, ${round}`}${pass === null ? ': ' : ', '}Nadel ${needle}, ${bed}`,
  round: (round, rounds) => `Runde ${round} von ${rounds}`,
  decrease: { left: 'Abnahme, nach links geneigt', right: 'Abnahme, nach rechts geneigt', upright: 'Nimmt mehrere Maschen auf' },
  rows: { from: 'Gezogen durch', joins: 'Verbindet', host: 'Liegt um', into: 'Durch sie', knitted: 'Abgestrickt von', wraps: 'Umwickelt von', yarn: 'Garn', metre: 'Garnmeter' },
  ref: (pass, needle) => (pass === 0 ? `Anschlag auf ${needle}` : `Reihe ${pass} auf ${needle}`),
  refWrap: (pass, needle) => `Wickel nach Reihe ${pass}, ${needle}`,
  refClosing: (needle) => `Schließen bei ${needle}`,
  nothingBelow: 'nichts: Hier beginnt das Gestrick',
  nothingAbove: 'nichts',
  waits: (passes) => (passes === 1 ? 'nachdem sie eine Reihe gehalten wurde' : `nachdem sie ${passes} Reihen gehalten wurde`),
  metre: (at, whole) => `${at} von ${whole} m, vom Fadenende an`,
  lengths: (length, lengths) => `Faden ${length} von ${lengths}`,
  metreMissing: 'mit der nächsten Form in Ruhe, abseits der Betten',
  own: (length) => `${length} in dieser Masche`,
  letGo: 'Masche loslassen',
  close: 'Nah', toPass: 'Ihre Reihe', toChart: 'Im Musterplan',
  closeTip: 'Die Masche aus der Nähe zeigen', toPassTip: 'Zu der Reihe gehen, die sie gestrickt hat', toChartTip: 'Im Musterplan zeigen',
  walk: 'Von Masche zu Masche gehen',
  steps: { 'yarn-back': 'Den Faden zurück', 'yarn-on': 'Den Faden weiter', up: 'Das Stäbchen hinauf', down: 'Das Stäbchen hinunter' },
  keys: 'Pfeiltasten: links und rechts den Faden entlang, hinauf und hinunter im Maschenstäbchen. Eingabe zeigt die Masche aus der Nähe, Escape lässt sie los.',
  look: {
    open: 'Blick', label: 'Näher hinsehen, aufschneiden, auf links drehen',
    zoom: 'Wie nah',
    steps: { whole: 'Ganze Socke', heel: 'Ferse', few: 'Einige Maschen', one: 'Eine Masche' },
    cut: 'Aufschneiden',
    cutWords: (percent) => (percent === 0 ? 'gar nicht' : `${percent} % ihrer Breite`),
    insideOut: 'Auf links',
    drawn: { mesh: 'Gestricktes Bild', blend: 'Zwischen Bild und Garn', yarn: 'Garn, Masche für Masche' },
    detail: (level, pixels) => `${level}, ${pixels} Pixel je Masche`,
  },
};
