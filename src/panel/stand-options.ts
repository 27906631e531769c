import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import { createStandSheet, standChoice, standTick } from './stand-fields.ts';

type Light = 'bright' | 'dim' | 'night';

export interface OptionsShow {
  readonly voice: boolean;
  readonly tone: boolean;
  readonly hasVoice: boolean;
  readonly hasTone: boolean;
  readonly light: Light;
  readonly forwardKey: string | null;
  readonly backKey: string | null;
  readonly second: 'same' | 'mirrored';
  readonly isSlanted: boolean;
  readonly socks: readonly { readonly id: string; readonly name: string; readonly sock: number; readonly stop: number; readonly isHere: boolean }[];
  /** Name of the sock on the panel. */
  readonly panelName: string;
}

export interface OptionsHooks {
  readonly show: () => OptionsShow;
  readonly change: (change: Partial<Pick<OptionsShow, 'voice' | 'tone' | 'light' | 'forwardKey' | 'backKey'>>) => void;
  /** Why it cannot be, or null. */
  readonly setSecond: (second: 'same' | 'mirrored') => string | null;
  readonly goOn: (id: string) => void;
  readonly forget: (id: string) => void;
  readonly start: () => void;
  readonly save: () => void;
  /** What is wrong with the file, or null. */
  readonly openPlace: (text: string) => string | null;
  readonly pedalKey: (event: KeyboardEvent) => string;
}

/** Everything about the stand that is set once. */
export function createStandOptions(hooks: OptionsHooks): { open(): void } {
  const { options: told } = pageWords().stand, dialog = createStandSheet('stand-options', told.title);
  const voice = standTick(told.voice, (isOn) => { hooks.change({ voice: isOn }); }), tone = standTick(told.tone, (isOn) => { hooks.change({ tone: isOn }); });
  const light = standChoice<Light>(told.light, [['bright', told.lights.bright], ['dim', told.lights.dim], ['night', told.lights.night]], (chosen) => { hooks.change({ light: chosen }); });
  const second = standChoice<'same' | 'mirrored'>(told.second, [['same', told.seconds.same], ['mirrored', told.seconds.mirrored]], (chosen) => {
    setText(status, hooks.setSecond(chosen) ?? '');
    refresh();
  });
  const absent = el('p', { class: 'stand-soft' }), slanted = el('p', { class: 'stand-soft' }, told.slanted), socks = el('ul', { class: 'stand-list' }), status = el('p', { class: 'stand-wrong', role: 'alert' });
  const start = button('', { class: 'stand-button' }, () => {
    hooks.start();
    dialog.close();
  });
  const pedals = createPedals(hooks);
  const refresh = (): void => {
    const show = hooks.show();
    voice.input.checked = show.voice;
    tone.input.checked = show.tone;
    voice.input.disabled = !show.hasVoice;
    tone.input.disabled = !show.hasTone;
    setText(absent, [show.hasVoice ? '' : told.voiceAbsent, show.hasTone ? '' : told.toneAbsent].join(' ').trim());
    light.set(show.light);
    second.set(show.second);
    slanted.hidden = !show.isSlanted;
    setText(start, show.socks.some((sock) => sock.isHere && sock.name === show.panelName) ? told.restart : told.start(show.panelName));
    socks.replaceChildren(...show.socks.map((sock) => el('li', {},
      el('span', { dir: 'auto' }, `${told.sock(sock.name, sock.sock, sock.stop)}${sock.isHere ? ` (${told.here})` : ''}`),
      ...(sock.isHere ? [] : [
        button(told.goOn, { class: 'stand-button', 'aria-label': told.goOnWith(sock.name) }, () => {
          hooks.goOn(sock.id);
          dialog.close();
        }),
        button(told.remove, { class: 'stand-button', 'aria-label': told.removeOf(sock.name) }, () => {
          hooks.forget(sock.id);
          refresh();
        })]))));
    pedals.refresh();
  };
  const file = el('input', { type: 'file', accept: '.json,application/json', class: 'visually-hidden', tabindex: -1, 'aria-hidden': 'true' });
  file.addEventListener('change', () => {
    const chosen = file.files?.[0];
    file.value = '';
    void chosen?.text().then((text) => {
      const wrong = hooks.openPlace(text);
      setText(status, wrong === null ? '' : `${told.unread} ${wrong}`);
      if (wrong === null) dialog.close();
    });
  });
  dialog.body.append(voice.element, tone.element, absent, light.element, pedals.element, second.element, slanted, el('h3', {}, told.socks), socks, start,
    el('div', { class: 'stand-row' }, button(told.save, { class: 'stand-button' }, hooks.save), button(told.open, { class: 'stand-button' }, () => { file.click(); }), file), status);
  return {
    open: () => {
      setText(status, '');
      refresh();
      dialog.open();
    },
  };
}

/** Keys that a pedal sends are learned by pressing it. */
function createPedals(hooks: OptionsHooks): { readonly element: HTMLElement; refresh(): void } {
  const { pedals: told } = pageWords().stand, words = el('p', { role: 'status' });
  const refresh = (): void => {
    const { forwardKey, backKey } = hooks.show();
    setText(words, told.learned(forwardKey ?? told.none, backKey ?? told.none));
  };
  const learn = (which: 'forwardKey' | 'backKey', label: string): HTMLButtonElement => {
    const ask = button(label, { class: 'stand-button' }, () => {
      setText(words, told.press);
      window.addEventListener('keydown', (event) => {
        event.preventDefault();
        event.stopPropagation();
        // A button that is pressed by Space or Enter lets go of it after this.
        window.addEventListener('keyup', (up) => { up.preventDefault(); }, { capture: true, once: true });
        if (event.key === 'Escape') { setText(words, told.taken); return; }
        const key = hooks.pedalKey(event), { forwardKey, backKey } = hooks.show();
        hooks.change({ forwardKey: forwardKey === key ? null : forwardKey, backKey: backKey === key ? null : backKey });
        hooks.change({ [which]: key });
        refresh();
      }, { capture: true, once: true });
    });
    return ask;
  };
  return {
    refresh,
    element: el('div', { class: 'stand-row' }, learn('forwardKey', told.forward), learn('backKey', told.back), button(told.forget, { class: 'stand-button' }, () => {
      hooks.change({ forwardKey: null, backKey: null });
      refresh();
    }), words),
  };
}
