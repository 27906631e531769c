import type { PAGE_EN } from './page-en.ts';

export const PAGE_DE: typeof PAGE_EN = {
  rooms: { shape: 'Form', passes: 'Reihen', lesson: 'Lektion', chart: 'Musterplan', sheet: 'Strickblatt', stand: 'An der Maschine' },
  roomsLabel: 'Räume der Seite',
  title: 'Heelwright: eine maschinengestrickte Socke planen',
  toControls: 'Zu den Reglern',
  toRoom: 'Zum Inhalt des Raums',
  strip: 'Der Plan, in der Reihenfolge des Strickens',
  deck: 'Über die Socke',
  measures: 'Maße der Socke',
  yarnLabel: 'Garn für eine Socke',
  yarn: 'Garn',
  tolerance: 'Wie genau die Maschenprobe sein muss',
  care: 'Vorsicht',
  controls: 'Regler',
  bar: {
    undo: 'Rückgängig', redo: 'Wiederholen', save: 'Speichern', open: 'Öffnen …', sockFile: 'Sockendatei', examples: 'Beispiele', examplesLabel: 'Eine Beispielsocke öffnen', swatches: 'Proben …', sizes: 'Größen …',
    unit: 'Längeneinheit', units: { cm: 'Zentimeter', in: 'Zoll' },
    settings: 'Einstellungen',
  },
  settings: {
    title: 'Einstellungen',
    language: 'Sprache der Seite',
    languageNote: 'Die Seite wird in der anderen Sprache neu aufgebaut. Die Socke und alles Behaltene bleiben; die Liste der Schritte, die sich rückgängig machen lassen, beginnt von vorn.',
    languageKept: { title: 'Die Sprache bleibt, wie sie ist', what: 'Der Browser lässt die Seite nichts behalten, und in einer anderen Sprache wird sie neu aufgebaut: Ihre Socke ginge verloren. Speichern Sie sie in eine Datei und öffnen Sie sie in einem Browser, der etwas behält.' },
    needles: 'Nadelnummern',
    needleNumbers: { middle: 'von der Mitte: L12, R3', left: 'vom linken Ende: 1, 2, 3' },
    theme: 'Farben',
    themes: { auto: 'wie das System', light: 'hell', dark: 'dunkel' },
    motion: 'Bewegung folgt dem System: Wo es weniger wünscht, springt die Kamera und nichts spielt von selbst.',
  },
  told: {
    sock: (heelDepth, footLength, passes) => `Ferse ${heelDepth} tief, Fuß ${footLength} lang, ${passes} Reihen`,
    change: (control, sock) => `${control}; ${sock}`,
    undone: (sock) => `Die Socke ist geändert: ${sock}`,
    canvas: (pose, sock) => `Die Socke ${pose}: ${sock}. Pfeiltasten drehen sie, Plus und Minus zoomen, 0 zeigt sie ganz, C wechselt, was ihre Farben sagen.`,
  },
};
