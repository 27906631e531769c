import type { StandFace } from '../panel/stand-face.ts';
import type { PageState } from '../panel/page-state.ts';
import { pageWords } from '../words/page-words.ts';
import type { AwakeState } from './stand-awake.ts';
import { isCall, showPlace, spokenAt } from './stand-show.ts';
import type { Tone, Voice } from './stand-sound.ts';
import type { StandTable } from './stand-table.ts';

export interface StepTools {
  readonly table: StandTable;
  readonly voice: Voice;
  readonly tone: Tone;
  readonly state: () => PageState;
  readonly face: () => StandFace;
}

/** Going on and back, with what is shown, said and sounded at each step. */
export interface StandSteps {
  forward(): void;
  back(): void;
  undo(): void;
  /** The place has changed by other means; with something to say of it. */
  changed(told: string): void;
  /** Draws where something that is read here has changed. */
  render(): void;
  /** The place of an earlier visit is there. */
  restored(): void;
  tellAwake(state: AwakeState): void;
}

export function createStandSteps({ table, voice, tone, state, face }: StepTools): StandSteps {
  const words = pageWords().stand, numbers = (): PageState['settings']['needleNumbers'] => state().settings.needleNumbers;
  /** What is told until the next step: of the step, of the screen, of another sock on the panel. */
  let passing = '', warning = '', isOtherTold = true;
  let drawn: readonly unknown[] = [];
  const say = (): void => { face().say([passing, table.warning(), warning, isOtherTold ? tellOther(table, state()) : ''].filter((text) => text !== '').join(' ')); };
  const draw = (): void => {
    const work = table.work();
    if (work !== null) face().show(showPlace(table.place(), work, numbers()));
    drawn = [table.place(), numbers(), state().file];
    say();
  };
  const changed = (told: string): void => {
    passing = told;
    warning = '';
    isOtherTold = false;
    draw();
    const work = table.work();
    if (table.settings().voice && work !== null) voice.say(spokenAt(work, table.place(), numbers()));
  };
  return {
    changed,
    forward: () => {
      const isStep = table.forward(), work = table.work();
      if (isStep && table.settings().tone && work !== null) tone.sound(isCall(work, table.place().stop));
      changed(isStep ? '' : words.face.atEnd);
    },
    back: () => {
      table.back();
      changed('');
    },
    undo: () => {
      table.undo();
      changed(words.face.undone);
      // A short knock that a finger feels; not every device has it.
      (navigator as { vibrate?: (ms: number) => boolean }).vibrate?.(30);
    },
    render: () => {
      const { file } = state();
      if (file !== drawn[2]) isOtherTold = true;
      // A shape that relaxes elsewhere in the page changes nothing here.
      if ([table.place(), numbers(), file].some((part, i) => part !== drawn[i])) draw();
    },
    restored: () => {
      passing = words.kept.saidAgain;
      draw();
    },
    tellAwake: (now) => {
      warning = now === 'refused' || now === 'absent' ? words.kept.awake[now] : '';
      say();
    },
  };
}

/** The sock on the panel is another than the one that is knitted. */
function tellOther(table: StandTable, { file, problems }: PageState): string {
  const { kept } = pageWords().stand, here = table.place().file;
  if (problems.length > 0 || !table.isBegun() || JSON.stringify(here) === JSON.stringify(file)) return '';
  return here.name === file.name ? kept.changed : kept.otherSock(table.name(), file.name ?? '');
}
