import type { FILES_EN } from './files-en.ts';

function copyOf(name: string, taken: ReadonlySet<string>): string {
  const first = name === '' ? 'Kopie' : `${name}, Kopie`;
  let copy = first;
  for (let number = 2; taken.has(copy); number++) copy = `${first} ${number}`;
  return copy;
}

export const FILES_DE: typeof FILES_EN = {
  mySocks: 'Meine Socken',
  mySocksOf: (name) => `Meine Socken; auf der Seite: ${name}`,
  mySocksAbout: 'Dieser Browser bewahrt sie auf diesem Rechner auf, während Sie daran arbeiten. Sicherer ist eine Datei: Speichern Sie, was Ihnen fehlen würde.',
  unnamed: 'Socke ohne Namen',
  onPage: 'auf der Seite',
  notKeptMark: 'nur in diesem Fenster',
  changed: (date) => `geändert ${date}`,
  stitches: (stitches, turnDown) => `${stitches} Maschen, Ferse bis auf ${turnDown}`,
  cannotKnit: 'noch nicht strickbar',
  cannotRead: 'Was hier aufbewahrt ist, lässt sich nicht lesen. Speichern Sie es in eine Datei, bevor Sie es löschen.',
  open: 'Öffnen', rename: 'Umbenennen', duplicate: 'Verdoppeln', save: 'In Datei speichern', remove: 'Löschen', newSock: 'Neue Socke', openFiles: 'Dateien öffnen…',
  openNamed: (name) => `${name} öffnen`,
  actOn: (act, name) => `${act}: ${name}`,
  nameOfSock: 'Name der Socke',
  keepName: 'Namen behalten', leaveName: 'So lassen',
  removed: (name) => `„${name}“ ist gelöscht.`,
  copied: (name) => `„${name}“ ist jetzt auf der Seite.`,
  broughtBack: (name) => `„${name}“ ist wieder in der Liste.`,
  putBack: 'Zurückholen', forGood: 'Endgültig löschen',
  deletedLately: (count) => `Kürzlich gelöscht: ${count}`,
  copyOf,
  letGo: 'Loslassen, um zu öffnen',
  severalFiles: (opened, refused) => `${opened === 1 ? '1 Socke ist' : `${opened} Socken sind`} jetzt in Ihrer Liste${refused === 0 ? '' : `; ${refused === 1 ? '1 Datei ließ' : `${refused} Dateien ließen`} sich nicht öffnen`}`,
  notKept: {
    title: 'Diese Socke wird beim nächsten Mal nicht hier sein',
    off: 'Der Browser lässt die Seite nichts aufbewahren, wie in einem privaten Fenster oder mit abgeschaltetem Speicher. In diesem Fenster geht es weiter. Speichern Sie die Socke in eine Datei.',
    full: 'Der Browser hat keinen Platz mehr für sie. In diesem Fenster geht es weiter. Speichern Sie die Socke in eine Datei; löschen Sie unter Meine Socken, was Sie nicht brauchen.',
  },
  twoWindows: {
    title: 'Ein anderes Fenster hat diese Socke auch geändert',
    what: 'Ihre ist jetzt eine eigene Socke unter Meine Socken, und die des anderen Fensters ist auch dort: Nichts ist verloren.',
  },
  link: {
    copy: 'Link kopieren',
    copied: 'Link kopiert',
    about: 'Wer diesen Link öffnet, hat die ganze Socke, und kein Server wird gefragt.',
    byHand: 'Der Browser lässt die Seite nicht kopieren. Kopieren Sie den Link von hier:',
    label: 'Link zu dieser Socke',
    tooLongToMake: { title: 'Diese Socke ist zu lang für einen Link', what: 'Post und Chat würden ihn abschneiden. Speichern Sie sie in eine Datei und verschicken Sie diese.' },
    cannotPack: { title: 'Dieser Browser kann keinen Link machen', what: 'Er kann eine Socke nicht klein genug packen. Speichern Sie sie in eine Datei und verschicken Sie diese.' },
    none: { title: 'Es ließ sich kein Link machen', what: 'Die Socke auf der Seite ist noch nicht strickbar. Bringen Sie das zuerst in Ordnung, oder speichern Sie sie in eine Datei.' },
    faults: {
      damaged: { title: 'Der Link ist beschädigt; Ihre Socken sind noch da', what: 'Ein Buchstabe fehlt oder ist verändert. Kopieren Sie ihn noch einmal ganz, oder bitten Sie um die Socke als Datei.' },
      newer: { title: 'Der Link kommt von einem neueren Heelwright; Ihre Socken sind noch da', what: 'Laden Sie die Seite neu, um die neueste Fassung zu haben, und öffnen Sie den Link noch einmal, oder bitten Sie um die Socke als Datei.' },
      'too-long': { title: 'Der Link ist zu lang für eine Socke; Ihre Socken sind noch da', what: 'Er hat mehr als 8.000 Buchstaben. Bitten Sie um die Socke als Datei.' },
      'cannot-unpack': { title: 'Dieser Browser kann keine Links lesen; Ihre Socken sind noch da', what: 'Er kann sie nicht entpacken. Nehmen Sie einen neueren Browser, oder bitten Sie um die Socke als Datei.' },
    },
    refused: 'Der Link enthält keine strickbare Socke; Ihre Socken sind noch da',
    opened: 'Die Socke aus dem Link ist auf der Seite; Ihre ist unter Meine Socken',
  },
  exports: {
    button: 'Exportieren…',
    title: 'Exportieren',
    of: (name) => (name === '' ? 'Die Socke auf der Seite' : name),
    notYet: 'Die Socke auf der Seite ist noch nicht strickbar.',
    working: 'In Arbeit…',
    saved: (name, size) => `Gespeichert als ${name}, ${size}`,
    failed: (why) => `Das ging nicht: ${why}`,
    picture: {
      title: 'Bild der Ansicht',
      about: (width, height) => `Wie auf der Seite, ${width} × ${height} Bildpunkte.`,
      none: 'Dieser Browser kann die Socke nicht zeichnen: Es gibt kein Bild zu speichern.',
      size: 'Größe', times: (scale) => `${scale}×`, ground: 'mit Hintergrund', save: 'PNG',
    },
    film: {
      title: 'Die Socke im Wachsen, als bewegtes Bild',
      about: (frames, seconds, size) => `Auf der Maschine, Reihe um Reihe: ${frames} Bilder, ${seconds} s, ungefähr ${size}. Jedes entspannt sich neu, das braucht seine Zeit.`,
      step: 'Ein Bild', every: (step) => (step === 1 ? 'jede Reihe' : `alle ${step} Reihen`),
      speed: 'Tempo', perSecond: (frames) => `${frames} je Sekunde`,
      make: 'GIF', stop: 'Anhalten', first: 'Zuerst ein Blick auf das Ganze…',
      far: (frames, of, size) => `${frames} von ${of}; im Ganzen etwa ${size}`,
      failed: 'Die Socke ließ sich bei einer ihrer Reihen nicht berechnen.',
    },
    outline: {
      title: 'Umriss, 1:1',
      about: 'Die Socke flach gelegt, in Millimetern, zum Schneiden oder Nachzeichnen. Drucken Sie mit 100 % und messen Sie zuerst die Linie von 5 cm.',
      save: 'SVG', failed: 'Die Socke ließ sich nicht flach legen.',
      checkLine: 'Diese Linie ist 5 cm lang: Messen Sie nach, bevor Sie schneiden.',
      details: ({ stitches, turnDownWidth, legPasses, footPasses, toePasses, stitchesPer10cm, rowsPer10cm }) => [
        `Heelwright: flach gelegt, nach dem Waschen. ${stitches} Maschen, Ferse bis auf ${turnDownWidth}`,
        `Reihen: Schaft ${legPasses}, Fuß ${footPasses}, Spitze ${toePasses}. Auf 10 cm ${stitchesPer10cm} Maschen, ${rowsPer10cm} Reihen`,
      ],
    },
    model: {
      title: 'Form, als Modell',
      about: (glb, stl) => `Die Lage auf der Seite, eine Schicht Gestrick, oben offen. GLB in Metern mit den Farben der Garne${glb === '' ? '' : `, ${glb}`}; STL in Millimetern${stl === '' ? '' : `, ${stl}`}.`,
    },
    work: { title: 'Reihen', about: 'Jede Reihe mit dem, was vor und nach ihr zu tun ist. CSV als Tabelle, JSON auch mit dem Stand jeder Nadel.' },
    sock: { title: 'Die Socke selbst', about: 'Ihre Datei, die sich hier wieder öffnen lässt.' },
  },
  update: {
    title: 'Eine neue Fassung ist da',
    what: 'Laden Sie die Seite neu, wann es Ihnen passt: Ihre Socken bleiben.',
    reload: 'Neu laden',
  },
};
