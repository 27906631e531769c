import { button, el, setText } from '../panel/dom.ts';
import { createStandChange } from '../panel/stand-change.ts';
import { createStandFace } from '../panel/stand-face.ts';
import type { StandFace } from '../panel/stand-face.ts';
import { createStandMistake } from '../panel/stand-mistake.ts';
import { createStandNotes } from '../panel/stand-notes.ts';
import { createStandOptions } from '../panel/stand-options.ts';
import { createStandYarn } from '../panel/stand-yarn.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import type { Room, RoomTools } from './rooms.ts';
import { createAwake } from './stand-awake.ts';
import { listenToHands } from './stand-hands.ts';
import { createSheetHooks } from './stand-sheets.ts';
import type { SheetHooks } from './stand-sheets.ts';
import { createTone, createVoice } from './stand-sound.ts';
import { createStandSteps } from './stand-steps.ts';
import { createStandTable } from './stand-table.ts';
import { openVault } from './stand-vault.ts';

const isSheetOpen = (): boolean => document.querySelector('dialog[open]') !== null;

/** The mode for the machine's stand: large words, one step at a time, the place kept at every step. */
export function createStandRoom({ host, store, keeper, choose, deskOf }: RoomTools): Room {
  let isShown = false, isFirst = true;
  const table = createStandTable(keeper, openVault(), () => { if (isShown) steps.restored(); }), voice = createVoice(pageLanguage()), tone = createTone();
  const steps = createStandSteps({ table, voice, tone, state: store.state, face: () => face }), { forward, back, undo } = steps;
  const awake = createAwake(steps.tellAwake);
  const showLight = (): void => {
    if (isShown) document.documentElement.dataset['standLight'] = table.settings().light;
    else delete document.documentElement.dataset['standLight'];
  };
  const leave = (): void => { choose({ room: 'shape' }); };
  const tools = createTools(host, createSheetHooks({ table, store, deskOf, voice, tone, changed: steps.changed, lit: showLight }), leave);
  const face: StandFace = createStandFace(host, tools, { forward, back });
  // A press with the mouse leaves the focus on the tool, where the pedal's next Enter would press it again.
  tools.addEventListener('click', (event) => { if (event.detail > 0 && !isSheetOpen()) face.zone.focus(); });
  listenToHands(face.element, {
    isListening: () => isShown && !isSheetOpen(), forward, back, undo, leave,
    forwardKey: () => table.settings().forwardKey, backKey: () => table.settings().backKey, ring: face.ring,
  });
  return {
    render: (state) => {
      table.follow(state);
      if (!isShown) {
        isShown = true;
        showLight();
        awake.on();
        face.zone.focus();
        if (isFirst && table.restored()) steps.restored();
        isFirst = false;
      }
      steps.render();
    },
    leave: () => {
      isShown = false;
      showLight();
      awake.off();
      voice.quiet();
      if (document.fullscreenElement === host) void document.exitFullscreen();
    },
  };
}

/** Buttons over the words: sheets, full screen, the way out. */
function createTools(host: HTMLElement, hooks: SheetHooks, leave: () => void): HTMLElement {
  const { bar } = pageWords().stand;
  const sheets = {
    notes: createStandNotes(hooks.notes), mistake: createStandMistake(hooks.mistake), change: createStandChange(hooks.change),
    yarn: createStandYarn(hooks.yarn), options: createStandOptions(hooks.options),
  };
  const tool = (label: string, onClick: () => void): HTMLButtonElement => button(label, { class: 'stand-tool' }, onClick);
  const full = tool(bar.full, () => { void toggleFull(host); });
  full.hidden = !document.fullscreenEnabled;
  document.addEventListener('fullscreenchange', () => { setText(full, document.fullscreenElement === host ? bar.notFull : bar.full); });
  const opening = (['notes', 'mistake', 'change', 'yarn', 'options'] as const).map((name) => tool(bar[name], () => { sheets[name].open(); }));
  return el('div', { class: 'stand-tools', role: 'toolbar', 'aria-label': bar.tools }, ...opening, full, tool(bar.leave, leave));
}

async function toggleFull(host: HTMLElement): Promise<void> {
  try {
    await (document.fullscreenElement === host ? document.exitFullscreen() : host.requestFullscreen());
  } catch { /* The browser does not allow it: the room fills its window all the same. */ }
}
