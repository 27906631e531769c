import { makeProblem } from '../base/make-problem.ts';
import type { CompanionState } from '../panel/page-state.ts';
import { DEFAULTS } from '../plan/defaults.ts';
import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { MakeOutcome, WorkClient } from '../worker/client.ts';
import type { Keeper } from './keep.ts';
import type { PageStore } from './page-store.ts';

/** Where a second sock is kept to compare the one on the panel with; its shape comes from a worker of its own. */
export interface CompanionDesk {
  /** Takes a sock to compare with, for the next visit too. */
  keep(file: SockFile): void;
  letGo(): void;
  /** Another pose or pass is chosen. */
  poseAgain(): void;
}

export interface CompanionTools {
  readonly store: PageStore;
  readonly keeper: Keeper;
  readonly work: WorkClient;
}

const KEY = 'companion';

/** The sock kept at the last visit. One that cannot be read is still told of: it is let go by hand. */
export function readCompanion(kept: string | null): CompanionState | null {
  if (kept === null || kept === '') return null;
  const { file, problems } = readSock(kept);
  return { name: file === null ? pageWords().messages.lastVisit : nameOf(file), file, problems, knitted: null, posed: null, shape: { kind: 'none' } };
}

export function createCompanionDesk(tools: CompanionTools): CompanionDesk {
  const { store, keeper, work } = tools;
  const desk: CompanionDesk = {
    keep: (file) => {
      store.update({ companion: { name: nameOf(file), file, problems: [], knitted: null, posed: null, shape: { kind: 'none' } } });
      if (keeper.write(KEY, JSON.stringify(file))) store.withdraw('keep-companion');
      else store.tell('keep-companion', pageWords().messages.otherNotKept.title, pageWords().messages.otherNotKept.what);
      desk.poseAgain();
    },
    letGo: () => {
      work.cancel();
      keeper.write(KEY, '');
      store.update({ companion: null });
    },
    poseAgain: () => { makeShape(tools); },
  };
  desk.poseAgain();
  return desk;
}

function nameOf(file: SockFile): string {
  const name = file.name?.trim() ?? '';
  return name === '' ? DEFAULTS.name : name;
}

/** Changes the companion, if it is still the one that was asked for. */
function change({ store }: CompanionTools, file: SockFile, next: Partial<CompanionState>): void {
  const { companion } = store.state();
  if (companion?.file === file) store.update({ companion: { ...companion, ...next } });
}

function makeShape(tools: CompanionTools): void {
  const { settings: { pose }, bedsPass, companion } = tools.store.state(), file = companion?.file ?? null;
  if (file === null) return;
  change(tools, file, { posed: null, shape: { kind: 'relaxing', fraction: 0 } });
  void tools.work.make(file, pose, {
    onKnitted: (knitted) => { change(tools, file, { knitted, problems: [] }); },
    onProgress: (_positions, fraction) => { change(tools, file, { shape: { kind: 'relaxing', fraction } }); },
  }, pose === 'beds' ? bedsPass : null).then((outcome) => { settle(tools, file, outcome); });
}

function settle(tools: CompanionTools, file: SockFile, outcome: MakeOutcome): void {
  switch (outcome.status) {
    case 'cancelled': return;
    case 'posed': change(tools, file, { posed: outcome.posed, shape: { kind: 'settled', milliseconds: outcome.milliseconds } }); return;
    case 'refused': change(tools, file, { problems: outcome.problems, knitted: null, posed: null, shape: { kind: 'none' } }); return;
    case 'failed': {
      const problem = makeProblem(null, undefined, null, pageWords().messages.otherNotWorkedOut(outcome.message));
      change(tools, file, { problems: [problem], posed: null, shape: { kind: 'none' } });
      return;
    }
    default: outcome satisfies never;
  }
}
