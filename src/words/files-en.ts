/** Counts that a template names. */
export interface OutlinePlan {
  readonly stitches: number;
  readonly turnDownWidth: number;
  readonly legPasses: number;
  readonly footPasses: number;
  readonly toePasses: number;
  readonly stitchesPer10cm: number;
  readonly rowsPer10cm: number;
}

/** The person's socks and files: the list, links, exports, the page offline. */
export const FILES_EN = {
  mySocks: 'My socks',
  mySocksOf: (name: string) => `My socks; on the page: ${name}`,
  mySocksAbout: 'Kept by this browser on this computer, as you knit and change them. A file is safer: save what you would miss.',
  unnamed: 'Sock without a name',
  onPage: 'on the page',
  notKeptMark: 'only in this window',
  changed: (date: string) => `changed ${date}`,
  stitches: (stitches: number, turnDown: number) => `${stitches} stitches, heel turned down to ${turnDown}`,
  cannotKnit: 'cannot be knitted yet',
  cannotRead: 'What is kept here cannot be read. Save it to a file before you delete it.',
  open: 'Open', rename: 'Rename', duplicate: 'Duplicate', save: 'Save to file', remove: 'Delete', newSock: 'New sock', openFiles: 'Open files…',
  openNamed: (name: string) => `Open ${name}`,
  actOn: (act: string, name: string) => `${act}: ${name}`,
  nameOfSock: 'Name of the sock',
  keepName: 'Keep the name', leaveName: 'Leave it',
  removed: (name: string) => `“${name}” is deleted.`,
  copied: (name: string) => `“${name}” is on the page now.`,
  broughtBack: (name: string) => `“${name}” is back in the list.`,
  putBack: 'Put back', forGood: 'Delete for good',
  deletedLately: (count: number) => `Deleted lately: ${count}`,
  copyOf: (name: string) => (name === '' ? 'Copy' : `${name}, copy`),
  letGo: 'Let go to open what you hold',
  severalFiles: (opened: number, refused: number) => `${opened === 1 ? '1 sock is' : `${opened} socks are`} in your list now${refused === 0 ? '' : `; ${refused === 1 ? '1 file' : `${refused} files`} could not be opened`}`,
  notKept: {
    title: 'This sock will not be here next time',
    off: 'The browser does not let the page keep anything, as in a private window or with storage switched off. It goes on in this window. Save the sock to a file.',
    full: 'The browser has no room left for it. It goes on in this window. Save the sock to a file; delete socks that you do not need under My socks.',
  },
  twoWindows: {
    title: 'Another window has changed this sock too',
    what: 'Yours is now a sock of its own in My socks, and the other window’s is there as well: nothing is lost.',
  },
  link: {
    copy: 'Copy link',
    copied: 'Link copied',
    about: 'Whoever opens this link has the whole sock, and no server is asked.',
    byHand: 'The browser does not let the page copy. Copy the link from here:',
    label: 'Link to this sock',
    tooLongToMake: { title: 'This sock is too long for a link', what: 'Mail and chat would cut it. Save it to a file and send that.' },
    cannotPack: { title: 'This browser cannot make a link', what: 'It cannot pack a sock small enough. Save it to a file and send that.' },
    none: { title: 'No link could be made', what: 'The sock on the page cannot be knitted yet. Put that right first, or save it to a file.' },
    faults: {
      damaged: { title: 'The link is damaged; your socks are still here', what: 'A letter is missing or changed. Copy all of it once more, or ask for the sock as a file.' },
      newer: { title: 'The link comes from a newer Heelwright; your socks are still here', what: 'Reload the page for the newest version and open the link again, or ask for the sock as a file.' },
      'too-long': { title: 'The link is too long for a sock; your socks are still here', what: 'It has more than 8,000 letters. Ask for the sock as a file.' },
      'cannot-unpack': { title: 'This browser cannot read links; your socks are still here', what: 'It cannot unpack them. Use a newer browser, or ask for the sock as a file.' },
    },
    refused: 'The link holds no sock that can be knitted; your socks are still here',
    opened: 'The sock of the link is on the page; yours is in My socks',
  },
  exports: {
    button: 'Export…',
    title: 'Export',
    of: (name: string) => (name === '' ? 'The sock on the page' : name),
    notYet: 'The sock on the page cannot be knitted yet.',
    working: 'Working…',
    saved: (name: string, size: string) => `Saved as ${name}, ${size}`,
    failed: (why: string) => `That did not work: ${why}`,
    picture: {
      title: 'Picture of the view',
      about: (width: number, height: number) => `As it stands on the page, ${width} × ${height} pixels.`,
      none: 'This browser cannot draw the sock: there is no picture to save.',
      size: 'Size', times: (scale: number) => `${scale}×`, ground: 'with its ground', save: 'PNG',
    },
    print: {
      title: 'Picture to print',
      about: (width: number, height: number, across: string, along: string, size: string) => `${across} × ${along} on paper: ${width} × ${height} pixels, roughly ${size}. The yarn is drawn as fine as that many pixels show it.`,
      none: 'This browser cannot draw the sock: there is no picture to print.', idle: 'The view as it stands, at a size on paper.',
      width: (unit: 'cm' | 'in') => `Width, ${unit === 'cm' ? 'cm' : 'inches'}`,
      save: 'PNG', density: 'Density', perInch: (pixels: number) => `${pixels} dpi`, ground: 'with its ground',
      outside: (least: string, most: string) => `The width must lie between ${least} and ${most}.`,
      tooWide: (least: string, most: string, perInch: number) => `At ${perInch} dpi this graphics card draws this view from ${least} to ${most} wide.`,
      far: (percent: number) => `${percent} % of the picture is drawn`,
      cannotPack: 'This browser cannot pack so large a picture. Take the picture of the view, or use a newer browser.',
    },
    film: {
      title: 'The sock growing, as a moving picture',
      about: (frames: number, seconds: number, size: string) => `On the machine, pass by pass: ${frames} pictures, ${seconds} s, roughly ${size}. How it hangs is worked out first, which takes its time.`,
      step: 'A picture', every: (step: number) => (step === 1 ? 'every pass' : `every ${step} passes`),
      speed: 'Speed', perSecond: (frames: number) => `${frames} a second`,
      make: 'GIF', stop: 'Stop', first: 'Looking at the whole of it first…',
      far: (frames: number, of: number, size: string) => `${frames} of ${of}; about ${size} in all`,
      failed: 'The sock could not be worked out at one of its passes.',
    },
    outline: {
      title: 'Outline, 1:1',
      about: 'The sock laid flat, in millimetres, to cut or trace by. Print it at 100 % and measure its line of 5 cm first. Most socks need more than A4 or Letter: a larger sheet, or several of them (poster, in the print dialog).',
      save: 'SVG', failed: 'The sock could not be laid flat.',
      checkLine: 'This line is 5 cm long: measure it before you cut.',
      details: ({ stitches, turnDownWidth, legPasses, footPasses, toePasses, stitchesPer10cm, rowsPer10cm }: OutlinePlan) => [
        `Heelwright: laid flat, after washing. ${stitches} stitches, heel turned down to ${turnDownWidth}`,
        `Passes: leg ${legPasses}, foot ${footPasses}, toe ${toePasses}. In 10 cm ${stitchesPer10cm} stitches, ${rowsPer10cm} rows`,
      ],
    },
    model: {
      title: 'Shape, as a model',
      about: (glb: string, stl: string) => `The pose on the page, one layer of cloth, open at the cuff. GLB in metres with the yarns’ colours${glb === '' ? '' : `, ${glb}`}; STL in millimetres${stl === '' ? '' : `, ${stl}`}.`,
    },
    yarn: {
      title: 'Yarn, loop by loop, as a model',
      about: (size: string) => `The pose on the page with its yarn as tubes in their colours, in metres${size === '' ? '' : `: ${size}`}.`,
      size: (loops: number, size: string) => `${loops.toLocaleString('en')} loops, ${size}`,
      save: 'GLB', detail: 'Detail', details: { coarse: 'coarse', middle: 'middle', fine: 'fine' },
      large: (instead: string | null) => `So large a file takes many programs long to open, or they give up.${instead === null ? '' : ` Choose ${instead} for less than 100 MB.`}`,
      tooLarge: (instead: string | null) => `That is more than 2 GB, and more than programs can read.${instead === null ? ' At no detail does this sock come to less.' : ` Choose ${instead}.`}`,
      far: (percent: number) => `${percent} % of the yarn is made`,
    },
    work: { title: 'Passes', about: 'Every pass with what comes before and after it. CSV for a table, JSON with the state of every needle too.' },
    sock: { title: 'The sock itself', about: 'Its file, which opens again here.' },
  },
  update: {
    title: 'A new version is here',
    what: 'Reload the page when it suits you: your socks stay.',
    reload: 'Reload',
  },
};
