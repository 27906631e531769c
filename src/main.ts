import { readTolerance } from './choose/read-tolerance.ts';
import { nearestShoeSize } from './foot/shoe-size.ts';
import { createBedsScrub } from './main/beds-scrub.ts';
import { readCompanion } from './main/companion-desk.ts';
import { createCloseLook } from './main/close-look.ts';
import type { CloseLook } from './main/close-look.ts';
import { createCompareRoom } from './main/compare-room.ts';
import { dressPage } from './main/dress-page.ts';
import { createFitRoom } from './main/fit-room.ts';
import { createFilesRoom } from './main/files-room.ts';
import { examples, findFirstSock } from './main/first-sock.ts';
import type { FirstSock } from './main/first-sock.ts';
import { createGrowthDesk } from './main/growth-desk.ts';
import type { GrowthDesk } from './main/growth-desk.ts';
import { scaleOf } from './main/layer-map.ts';
import { createKeeper } from './main/keep.ts';
import { listenToPicks } from './main/pick-pointer.ts';
import type { Cupboard, Keeper } from './main/keep.ts';
import { exposePageHook } from './main/page-hook.ts';
import { createStore } from './main/page-store.ts';
import type { PageStore } from './main/page-store.ts';
import { createLaidDesk } from './main/laid-desk.ts';
import { createLessonWay } from './main/lesson-way.ts';
import { createRooms } from './main/rooms.ts';
import { readSettings } from './main/settings.ts';
import { createSkipLink } from './main/skip-link.ts';
import { createSizesRoom } from './main/sizes-room.ts';
import { listenToShortcuts } from './main/shortcuts.ts';
import { createSockDesk } from './main/sock-desk.ts';
import type { SockDesk } from './main/sock-desk.ts';
import { changeLanguage } from './main/change-language.ts';
import { createSockPicture } from './main/sock-picture.ts';
import type { SockPicture } from './main/sock-picture.ts';
import { createSockShelf } from './main/sock-shelf.ts';
import type { SockShelf } from './main/sock-shelf.ts';
import { findPresent } from './main/sock-sessions.ts';
import { createStitchDesk } from './main/stitch-desk.ts';
import type { StitchDesk } from './main/stitch-desk.ts';
import { stitchHost } from './main/stitch-host.ts';
import { createSwatchRoom } from './main/swatch-room.ts';
import { createCautionList } from './panel/caution-list.ts';
import { nextLayer, shownLayer } from './panel/cloth-layers.ts';
import { createDeck } from './panel/deck.ts';
import { createLoopReadout } from './panel/loop-readout.ts';
import { createLookBar } from './panel/look-bar.ts';
import { createMapCard } from './panel/map-card.ts';
import { createMeasuresCard } from './panel/measures-card.ts';
import type { MeasureHooks } from './panel/measures-card.ts';
import { createNoticeList } from './panel/notice-list.ts';
import type { PageState, Settings } from './panel/page-state.ts';
import { createPanel } from './panel/panel.ts';
import { createPassBar } from './panel/pass-bar.ts';
import { createPlanStrip } from './panel/plan-strip.ts';
import { createRoomTabs } from './panel/room-tabs.ts';
import { createSettingsDialog } from './panel/settings-dialog.ts';
import { createSettledVoice } from './panel/settled-voice.ts';
import { createStageBar } from './panel/stage-bar.ts';
import { createToleranceCard } from './panel/tolerance-card.ts';
import { createTopBar } from './panel/top-bar.ts';
import { createYarnCard } from './panel/yarn-card.ts';
import { usualPass } from './pipeline/usual-pass.ts';
import { DEFAULTS } from './plan/defaults.ts';
import { rangesFor } from './plan/ranges.ts';
import type { SockFile } from './plan/sock-file.ts';
import { placeOnScale } from './view/colour-scale.ts';
import { createSockView } from './view/sock-view.ts';
import type { SockView } from './view/sock-view-types.ts';
import { pageWords, setPageLanguage } from './words/page-words.ts';
import { client } from './worker/client.ts';
import { growthClient } from './worker/growth-client.ts';
import { openWorker } from './worker/open-worker.ts';
import { weighClient } from './worker/weigh-client.ts';
import './styles/page.css';

/** The one owner of the page's state: panels propose, the pipeline answers, everything is drawn from one state. */
function startPage(first: FirstSock, shelf: SockShelf, places: readonly [Cupboard, Cupboard]): void {
  const [keeper] = places;
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const isDark = ({ settings }: PageState): boolean => (settings.theme === 'auto' ? dark.matches : settings.theme === 'dark');
  const parts: { render(state: PageState): void }[] = [];
  const store = createStore(firstState(first, keeper), (state) => { for (const part of parts) part.render(state); });
  const view = openView(isDark(store.state()), store);
  const picture = view === null ? null : createSockPicture(view);
  const growth = createGrowthDesk(view, growthClient(openWorker));
  // Built before the panels, and told of the sock after them: the first render shows all of it.
  const deskOf = (): SockDesk => desk, steps = { undo: () => { desk.undo(); }, redo: () => { desk.redo(); } };
  const choose = (change: Partial<Settings>): void => {
    const before = store.state().settings;
    store.update({ settings: { ...before, ...change } });
    keeper.write('settings', JSON.stringify(store.state().settings));
    if (store.state().settings.pose === before.pose) return;
    picture?.frameNext();
    poseAgain();
  };
  const poseAgain = (): void => {
    desk.poseAgain();
    compare.poseAgain();
  };
  const scrub = createBedsScrub(store, growth, poseAgain), { choosePass } = scrub;
  const lesson = createLessonWay(store, choose, () => rooms);
  const files = createFilesRoom(first.id ?? shelf.newId(), {
    shelf, store, deskOf, places, view, growth, canvas: byId<HTMLCanvasElement>('sock'), theme: () => (isDark(store.state()) ? 'dark' : 'light'),
    takeOther: lesson.takeFile,
    onOpen: () => {
      lesson.leave();
      picture?.frameNext();
      store.update({ bedsPass: null });
    },
  });
  const { openSock } = files;
  parts.push({ render: (state) => { showTheme(isDark(state), view); } }, { render: ({ knitted }) => { growth.setSock(knitted); } }, scrub, createLaidDesk(store, weighClient(openWorker)));
  parts.push({ render: (state) => { picture?.setLayer(shownLayer(state)); } }, { render: ({ settings }) => { view?.setFootLook(settings.footLook); } });
  const stitches = createStitchDesk({ store, view, canvas: byId<HTMLCanvasElement>('sock'), choose, choosePass, hostOf: stitchHost(pageOf(), () => { store.update({}); }) });
  const closer = createCloseLook(view, store.state, choose, stitches.lookedAt);
  parts.push(...buildPanels({ store, deskOf, choose, choosePass, compareWith: (file) => { compare.compareWith(file); }, view, picture, growth, stitches, closer }));
  const compare = createCompareRoom({ host: byId('compare'), store, keeper, picture, deskOf, choose, openSock });
  const sizes = createSizesRoom(() => desk.knittable(), openSock);
  const swatches = createSwatchRoom(store.state, (file) => { desk.propose(file, null); });
  parts.push(...compare.parts, sizes, swatches, ...files.parts);
  parts.push(createRoomTabs(byId('top-bar'), (room) => { choose({ room }); }));
  const topBar = createTopBar(byId('top-bar'), {
    ...files.bar, ...steps, examples: examples(), openSocks: lesson.outside(files.bar.openSocks), openSizes: lesson.outside(sizes.open), openSwatches: lesson.outside(swatches.open),
  });
  const language = { store, keeper, keepSock: keptBy(files.deskTools.keep, shelf) };
  parts.push(topBar, createSettingsDialog(byId('top-bar'), { choose, changeLanguage: (chosen) => changeLanguage(chosen, language) }), createSkipLink(byId<HTMLAnchorElement>('skip-link')));
  const rooms = createRooms(pageOf(), (name) => byId(`room-${name}`), { store, keeper, view, picture, growth, deskOf, choose, choosePass, openSock, poseAgain });
  parts.push(rooms, stitches, closer);
  dark.addEventListener('change', () => { store.update({}); });
  listenToShortcuts({
    ...steps, save: files.bar.save, nextLayer: () => { choose({ layer: nextLayer(store.state()) }); },
    enterStitch: stitches.enter, lookCloser: closer.show, cutFurther: closer.cutFurther, turnInsideOut: closer.turnInsideOut,
  });
  exposePageHook(store.state, () => view);
  const desk = createSockDesk(first.file, { store, ...files.deskTools, work: client(openWorker), picture: () => picture, hungAt: growth.positionsAt });
  // What an earlier version of the page kept is in the list now.
  if (files.begin()) keeper.remove(SINGLE);
}

/** The key of the one sock that earlier versions of the page kept. */
const SINGLE = 'sock';

/** Keeps a sock, and says whether the browser let it. */
function keptBy(keep: (file: SockFile) => void, shelf: SockShelf): (file: SockFile) => boolean {
  return (file) => {
    keep(file);
    return shelf.trouble() === null;
  };
}

interface PanelTools {
  readonly store: PageStore;
  readonly deskOf: () => SockDesk;
  readonly choose: (change: Partial<Settings>) => void;
  readonly choosePass: (pass: number) => void;
  readonly compareWith: (file: SockFile) => void;
  readonly view: SockView | null;
  readonly picture: SockPicture | null;
  readonly growth: GrowthDesk;
  readonly stitches: StitchDesk;
  readonly closer: CloseLook;
}

function buildPanels({ store, deskOf, choose, choosePass, compareWith, view, picture, growth, stitches, closer }: PanelTools): { render(state: PageState): void }[] {
  const showLine: MeasureHooks['showLine'] = (line) => { view?.showLine(line?.points ?? null, line?.label ?? ''); };
  const fit = createFitRoom({ host: byId('fit'), store, deskOf, choose, showLine });
  const panel = createPanel(byId('panel'), {
    propose: (file, gesture) => { deskOf().propose(file, gesture); },
    finish: () => { deskOf().finish(); },
    choose, showHowToMeasure: fit.showHowToMeasure, rangesOf: rangesFor, defaults: DEFAULTS, shoeSizeOf: nearestShoeSize,
  });
  const readout = createLoopReadout(byId('stage'));
  const picks = listenToPicks(byId<HTMLCanvasElement>('sock'), stitches.pickAt);
  view?.onHover((hovered) => {
    picks.hover(hovered);
    const { settings, spot } = store.state(), read = hovered === null ? null : picture?.readAt(hovered) ?? null, loop = hovered?.sock === 'first' ? hovered.loop : null;
    // What is known of the cloth is of its pose, and not of the sock as it grows.
    readout.show(hovered, read === null || growth.state().pass === null ? read : { ...read, reading: null }, settings.lengthUnit);
    if (settings.room !== 'shape' && loop !== (spot?.loop ?? null)) store.update({ spot: loop === null ? null : { loop, from: 'picture' } });
  });
  const mapCard = createMapCard(byId('stage'), {
    scaleOf, placeOf: placeOnScale,
    chooseLayer: (layer) => { choose({ layer }); }, chooseFootLook: (footLook) => { choose({ footLook }); },
  }, createLookBar(closer.hooks));
  keepButtonsClear(byId('stage-top'), mapCard.element, view);
  const pages = { measures: byId('deck-measures'), fit: byId('fit'), compare: byId('compare') };
  return [
    panel,
    createDeck(byId('deck'), pages, (tab) => { store.update({ tab }); }),
    createPlanStrip(byId('strip')),
    createMeasuresCard(byId('measures'), { showLine }),
    createCautionList(byId('measures'), byId('care')),
    createYarnCard(byId('yarns')),
    createToleranceCard(byId('tolerance'), readTolerance),
    ...fit.parts,
    createNoticeList(byId('notices'), {
      focusField: panel.focusField, hasField: panel.hasField, dismiss: store.withdraw, undo: () => { deskOf().undo(); },
      compareWith: (file) => { compareWith(file); store.withdraw('advice'); },
    }),
    createStageBar(byId('stage-top'), byId('stage-bottom'), {
      choosePose: (pose) => { choose({ pose }); },
      showPreset: (preset) => { view?.showPreset(preset); },
      reset: closer.showWhole,
      zoomBy: (factor) => { view?.zoomBy(factor); },
      showLarge: (isLarge) => {
        pageOf().classList.toggle('is-large', isLarge);
        store.update({});
      },
    }),
    createSettledVoice(byId('sock'), { tellField: panel.tellField }),
    createPassBar(byId('stage-top'), { choosePass, usualPass }),
    mapCard,
  ];
}

/** Buttons over the picture may take more than one row, a legend stands at its foot: the sock keeps clear of both. */
function keepButtonsClear(top: HTMLElement, foot: HTMLElement, view: SockView | null): void {
  const stage = byId('stage'), gap = 8;
  const observer = new ResizeObserver(() => {
    stage.style.setProperty('--stage-top', `${top.offsetTop + top.offsetHeight + gap}px`);
    stage.style.setProperty('--stage-foot', `${foot.offsetHeight === 0 ? gap : stage.clientHeight - foot.offsetTop + gap}px`);
    // What is not shown has no place of its own and covers nothing.
    view?.keepFree(top.offsetTop + top.offsetHeight + gap, foot.offsetHeight === 0 ? gap : stage.clientHeight - foot.offsetTop + gap);
  });
  for (const element of [stage, top, foot]) observer.observe(element);
}

function firstState(first: FirstSock, keeper: Keeper): PageState {
  return {
    sockId: first.id ?? '',
    file: first.file, problems: [], remarks: [], planned: null, knitted: null, posed: null, shape: { kind: 'none' },
    settings: readSettings(keeper.read('settings')), bedsPass: null, tab: 'measures',
    companion: readCompanion(keeper.read('companion')), notices: first.notice === null ? [] : [first.notice],
    canUndo: false, canRedo: false,
  };
}

/** Null where the browser cannot draw: the page then says so and works without a picture. */
function openView(isDark: boolean, store: PageStore): SockView | null {
  try {
    const view = createSockView(byId<HTMLCanvasElement>('sock'), isDark ? 'dark' : 'light');
    view.onContext((state) => {
      if (state === 'restored') store.withdraw('graphics');
      else store.tell('graphics', pageWords().messages.pictureStopped.title, pageWords().messages.pictureStopped.what);
    });
    return view;
  } catch (error) {
    store.tell('graphics', pageWords().messages.cannotDraw.title, pageWords().messages.cannotDraw.what(String(error)));
    return null;
  }
}

let shownTheme: boolean | null = null;
function showTheme(isDark: boolean, view: SockView | null): void {
  if (isDark === shownTheme) return;
  shownTheme = isDark;
  document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light';
  view?.setTheme(isDark ? 'dark' : 'light');
}

const pageOf = (): HTMLElement => byId('page');

function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`index.html has no #${id}`);
  return element as T;
}

const keeper = createKeeper(), ofWindow = createKeeper(() => sessionStorage);
setPageLanguage(readSettings(keeper.read('settings')).language);
dressPage();
const shelf = createSockShelf(keeper, randomName, () => Date.now());
void findFirstSock(shelf, findPresent(shelf, [ofWindow, keeper]), keeper.read(SINGLE)).then((first) => { startPage(first, shelf, [keeper, ofWindow]); });

/** Letters that no other sock and no other window has; `randomUUID` is missing on pages that were not served safely. */
function randomName(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
