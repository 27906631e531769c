import { measureRest } from '../measure/measure-rest.ts';
import { planSock } from '../plan/plan-sock.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { MakeOutcome, WorkClient } from '../worker/client.ts';
import { pageWords } from '../words/page-words.ts';
import { beginHistory, endGesture, record, redo, undo } from './history.ts';
import type { History } from './history.ts';
import type { PageStore } from './page-store.ts';
import type { SockPicture } from './sock-picture.ts';

/** Where a sock is changed: counts and rest measures at once, the shape as soon as the worker has it. */
export interface SockDesk {
  /** A changed file; null as gesture makes a step of its own. */
  propose(file: SockFile, gesture: string | null): void;
  /** The hand has left a control. */
  finish(): void;
  undo(): void;
  redo(): void;
  /** Another pose or pass is chosen, or the picture has come back. */
  poseAgain(): void;
  /** The last file that could be knitted. */
  knittable(): SockFile | null;
  /** What was done to the person's own sock. */
  history(): History<SockFile>;
  /** Puts another sock on the desk, with what was done to it. */
  replace(history: History<SockFile>): void;
  /** Puts another sock on the table for a while, or one in its place, with a history of its own. It is kept nowhere; the person's own waits as it is. */
  lend(file: SockFile): void;
  /** The lent sock goes, the person's own comes back with its history. */
  giveBack(): void;
}

/** Where undo and redo go on beyond a sock's own steps: to the sock that was on the desk before it came in. */
export interface Beyond {
  readonly undo: (() => void) | null;
  readonly redo: (() => void) | null;
}

export interface DeskTools {
  readonly store: PageStore;
  /** Every sock that could be knitted is kept. */
  readonly keep: (file: SockFile) => void;
  readonly beyond: () => Beyond;
  readonly work: WorkClient;
  /** Null where the browser cannot draw: counts and measures go on without a picture. */
  readonly picture: () => SockPicture | null;
  /** Where loops hang after a pass, if that is known: the pose on the beds goes on from there. */
  readonly hungAt: (file: SockFile, pass: number) => Float64Array | null;
}

export function createSockDesk(first: SockFile, tools: DeskTools): SockDesk {
  const { store, work, picture, beyond } = tools;
  let history: History<SockFile> = beginHistory(first);
  let knittable: SockFile | null = null;
  let waiting: { readonly history: History<SockFile>; readonly knittable: SockFile | null } | null = null;

  const take = (next: History<SockFile>, isBack = false): void => {
    history = next;
    store.withdraw('advice');
    const file = next.present;
    const { plan, derivations, foot, problems } = planSock(file);
    const isRefused = plan === null;
    const change = { file, problems: isRefused ? problems : [], remarks: isRefused ? [] : problems, canUndo: next.past.length > 0 || (waiting === null && beyond().undo !== null), canRedo: next.future.length > 0 || (waiting === null && beyond().redo !== null) };
    if (isRefused) {
      work.cancel();
      picture()?.keepOld();
      store.update({ ...change, shape: knittable === null ? { kind: 'none' } : { kind: 'kept' } });
      return;
    }
    knittable = file;
    store.update({ ...change, planned: { plan, derivations, foot, rest: measureRest(plan) }, bedsPass: withinSock(plan, store.state().bedsPass) });
    if (waiting === null && !isBack) tools.keep(file);
    makeShape(tools, file);
  };
  const step = (move: (from: History<SockFile>) => History<SockFile>, goBeyond: (() => void) | null): void => {
    const next = move(history);
    if (next !== history) take(next);
    // From a lent sock no way leads to others.
    else if (waiting === null) goBeyond?.();
  };
  take(history);
  return {
    propose: (file, gesture) => { take(record(history, file, gesture)); },
    finish: () => { history = endGesture(history); },
    undo: () => { step(undo, beyond().undo); },
    redo: () => { step(redo, beyond().redo); },
    poseAgain: () => { if (knittable !== null) makeShape(tools, knittable); },
    knittable: () => knittable,
    lend: (file) => {
      waiting ??= { history, knittable };
      take(beginHistory(file));
    },
    giveBack: () => {
      if (waiting === null) return;
      const own = waiting;
      waiting = null;
      knittable = own.knittable;
      // Kept already, as it was when it made way.
      take(own.history, true);
    },
    history: () => waiting?.history ?? history,
    replace: (next) => {
      waiting = null;
      take(next);
    },
  };
}

/** A pass chosen on another sock, or on the same one before it was changed. */
function withinSock(plan: Plan, pass: number | null): number | null {
  const { legPasses, plainPasses, anklePasses, heelPasses, footPasses, toePasses } = plan;
  return pass === null ? null : Math.min(pass, legPasses + plainPasses + anklePasses + heelPasses + footPasses + toePasses);
}

function makeShape(tools: DeskTools, file: SockFile): void {
  const { store, work, picture, hungAt } = tools;
  store.update({ posed: null, shape: { kind: 'relaxing', fraction: 0 } });
  picture()?.expect(performance.now());
  const { settings: { pose }, bedsPass } = store.state();
  void work.make(file, pose, {
    onKnitted: (knitted) => {
      picture()?.knitted(knitted);
      store.update({ knitted });
    },
    onProgress: (positions, fraction) => {
      picture()?.progress(positions, pose, performance.now());
      store.update({ shape: { kind: 'relaxing', fraction } });
    },
  }, pose === 'beds' ? bedsPass : null, pose === 'beds' && bedsPass !== null ? hungAt(file, bedsPass) : null).then((outcome) => { settle(tools, outcome); });
}

function settle({ store, picture }: DeskTools, outcome: MakeOutcome): void {
  switch (outcome.status) {
    case 'cancelled': return;
    case 'posed': {
      picture()?.settled(outcome.posed);
      store.withdraw('worker');
      const isKept = store.state().problems.length > 0;
      if (isKept) picture()?.keepOld();
      store.update({ posed: outcome.posed, shape: isKept ? { kind: 'kept' } : { kind: 'settled', milliseconds: outcome.milliseconds } });
      return;
    }
    case 'refused':
      picture()?.keepOld();
      store.update({ problems: outcome.problems, shape: { kind: 'kept' } });
      return;
    case 'failed':
      picture()?.keepOld();
      store.update({ shape: { kind: 'none' } });
      store.tell('worker', pageWords().messages.notWorkedOut.title, pageWords().messages.notWorkedOut.what(outcome.message));
      return;
    default: outcome satisfies never;
  }
}
