import { button, el, setText } from '../panel/dom.ts';
import { createStandChange } from '../panel/stand-change.ts';
import { createStandFace } from '../panel/stand-face.ts';
import { createStandMistake } from '../panel/stand-mistake.ts';
import { createStandNotes } from '../panel/stand-notes.ts';
import { createStandOptions } from '../panel/stand-options.ts';
import { createStandYarn } from '../panel/stand-yarn.ts';
import type { PageState } from '../panel/page-state.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import type { Room, RoomTools } from './rooms.ts';
import { createAwake } from './stand-awake.ts';
import { listenToHands } from './stand-hands.ts';
import { createSheetHooks } from './stand-sheets.ts';
import { isCall, showPlace, spokenAt } from './stand-show.ts';
import { createTone, createVoice } from './stand-sound.ts';
import { createStandTable } from './stand-table.ts';

/** The mode for the machine's stand: large words, one step at a time, the place kept at every step. */
export function createStandRoom({ host, store, keeper, choose, deskOf }: RoomTools): Room {
  const words = pageWords().stand, table = createStandTable(keeper), voice = createVoice(pageLanguage()), tone = createTone();
  let isShown = false, passing = table.restored() ? words.kept.saidAgain : '', warning = '';
  const awake = createAwake((state) => {
    warning = state === 'refused' || state === 'absent' ? words.kept.awake[state] : '';
    say();
  });
  const say = (): void => { face.say([passing, table.warning(), warning, isShown ? otherWords(store.state()) : ''].filter((text) => text !== '').join(' ')); };
  const otherWords = ({ file, problems }: PageState): string => {
    const here = table.place().file;
    if (problems.length > 0 || !table.isBegun() || JSON.stringify(here) === JSON.stringify(file)) return '';
    return here.name === file.name ? words.kept.changed : words.kept.otherSock(table.name(), file.name ?? '');
  };
  const draw = (): void => {
    const work = table.work(), { needleNumbers } = store.state().settings;
    if (work === null) return;
    face.show(showPlace(table.place(), work, needleNumbers));
    say();
  };
  /** After a step, in either direction. */
  const stepped = (told: string): void => {
    passing = told;
    // Read once, it would only take room from the work.
    warning = '';
    draw();
    const work = table.work(), { voice: isSpoken } = table.settings();
    if (isSpoken && work !== null) voice.say(spokenAt(work, table.place().stop, store.state().settings.needleNumbers));
  };
  const forward = (): void => {
    if (!table.forward()) { stepped(words.face.atEnd); return; }
    const work = table.work();
    if (table.settings().tone && work !== null) tone.sound(isCall(work, table.place().stop));
    stepped('');
  };
  const back = (): void => {
    table.back();
    stepped('');
  };
  const undo = (): void => {
    table.undo();
    stepped(words.face.undone);
    (navigator as { vibrate?: (ms: number) => boolean }).vibrate?.(30);
  };
  const leave = (): void => { choose({ room: 'shape' }); };
  const hooks = createSheetHooks({ table, store, deskOf, voice, tone, changed: stepped, lit: () => { showLight(isShown); } });
  const sheets = {
    notes: createStandNotes(hooks.notes), mistake: createStandMistake(hooks.mistake), change: createStandChange(hooks.change),
    yarn: createStandYarn(hooks.yarn), options: createStandOptions(hooks.options),
  };
  const full = button(words.bar.full, { class: 'stand-tool' }, () => { void toggleFull(host); });
  document.addEventListener('fullscreenchange', () => { setText(full, document.fullscreenElement === host ? words.bar.notFull : words.bar.full); });
  if (!document.fullscreenEnabled) full.hidden = true;
  const tools = el('div', { class: 'stand-tools', role: 'toolbar', 'aria-label': words.bar.tools },
    ...(['notes', 'mistake', 'change', 'yarn', 'options'] as const).map((name) => button(words.bar[name], { class: 'stand-tool' }, () => { sheets[name].open(); })),
    full, button(words.bar.leave, { class: 'stand-tool' }, leave));
  const face = createStandFace(host, tools, { forward, back });
  // A press with the mouse leaves the focus on the tool, where the pedal's next Enter would press it again.
  tools.addEventListener('click', (event) => { if (event.detail > 0 && document.querySelector('dialog[open]') === null) face.zone.focus(); });
  const showLight = (isOn: boolean): void => {
    if (isOn) document.documentElement.dataset['standLight'] = table.settings().light;
    else delete document.documentElement.dataset['standLight'];
  };
  listenToHands(face.element, {
    isListening: () => isShown && document.querySelector('dialog[open]') === null, forward, back, undo, leave,
    forwardKey: () => table.settings().forwardKey, backKey: () => table.settings().backKey, ring: face.ring,
  });
  return {
    render: (state) => {
      table.follow(state);
      if (!isShown) {
        isShown = true;
        showLight(true);
        awake.on();
        face.zone.focus();
      }
      draw();
    },
    leave: () => {
      isShown = false;
      showLight(false);
      awake.off();
      voice.quiet();
      if (document.fullscreenElement === host) void document.exitFullscreen();
    },
  };
}

async function toggleFull(host: HTMLElement): Promise<void> {
  try {
    await (document.fullscreenElement === host ? document.exitFullscreen() : host.requestFullscreen());
  } catch { /* The browser does not allow it: the room fills its window all the same. */ }
}
