import type { Keyframe } from '../pipeline/hang-at.ts';
import type { HungSock, SockHanger } from '../pipeline/hang-sock.ts';
import { createSockHanger } from '../pipeline/hang-sock.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { GrowthFrame, SockView } from '../view/sock-view-types.ts';
import type { GrowthClient } from '../worker/growth-client.ts';
import { shapeKey } from '../worker/shape-memory.ts';
import { coloursOf, diametersOf } from './picture-cloth.ts';

/** How the growth in the picture stands. */
export interface GrowthState {
  /** The pass that is shown; null while none is, or while its first shape is still under way. */
  readonly pass: number | null;
  /** Whether the shape shown is the one at rest; else it lies between those of other passes. */
  readonly isRelaxed: boolean;
  /** How much of the making has shapes that are close enough, 0 to 1. */
  readonly progress: number;
  /** Why there are no more shapes; null while all is well. */
  readonly failure: string | null;
}

/** Owns the shapes of the sock on the page all along its making. The worker starts when something is first asked for. */
export interface GrowthDesk {
  /** The sock that is looked at from now on; one of another shape starts afresh, and what was shown is shown of it. */
  setSock(sock: KnittedSock | null): void;
  /** Shows the sock after a pass, at once from what is known, at rest a little later; null takes the growth out of the picture. */
  show(pass: number | null): void;
  /** The sock after a pass, as near to rest as an exported picture needs it, as soon as it is known; null when the sock changes meanwhile or cannot be worked out. */
  frameAt(pass: number): Promise<GrowthFrame | null>;
  /** The same, if it is known now. */
  knownAt(pass: number): GrowthFrame | null;
  /** Places of the sock's loops after a pass, three entries a vertex, where they are known well enough to relax from; else null. */
  readonly positionsAt: (sock: SockFile, pass: number) => Float64Array | null;
  state(): GrowthState;
  /** Heard after every change of the state. Gives back a function that stops listening. */
  onState(callback: (state: GrowthState) => void): () => void;
  dispose(): void;
}

/** Milliseconds without a new pass after which the eye rests. */
const REST_MS = 300;
/** Between shapes near rest so many passes apart one can be shown in a small picture. `chosen by eye`. */
const NEAR_PASSES = 28;

export function createGrowthDesk(view: SockView | null, work: GrowthClient): GrowthDesk {
  return new Desk(view, work);
}

interface Waiter { readonly pass: number; readonly settle: (frame: GrowthFrame | null) => void }

class Desk implements GrowthDesk {
  private readonly view: SockView | null;
  private readonly work: GrowthClient;
  private readonly listeners = new Set<(state: GrowthState) => void>();
  private sock: KnittedSock | null = null;
  private hanger: SockHanger | null = null;
  private shown: HungSock | null = null;
  private drawnFrom: readonly [Keyframe, Keyframe] | null = null;
  private wanted: number | null = null;
  private waiters: Waiter[] = [];
  private isWorking = false;
  private progress = 0;
  private failure: string | null = null;
  private restTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(view: SockView | null, work: GrowthClient) {
    this.view = view;
    this.work = work;
  }

  setSock(sock: KnittedSock | null): void {
    if (sock === this.sock) return;
    const { sock: old, hanger } = this;
    // Every pose comes with its sock made anew: one of the same loops in the same yarns is the one that is shown.
    if (sock !== null && old !== null && keyOf(sock) === keyOf(old)) {
      if (JSON.stringify(sock.plan.yarns) === JSON.stringify(old.plan.yarns)) return;
      this.sock = sock;
      if (hanger === null) return;
      this.hanger = createSockHanger(sock);
      for (const keyframe of hanger.book.keyframes) this.hanger.book.add(keyframe);
      this.draw();
      return;
    }
    this.sock = sock;
    this.hanger = null;
    this.halt();
    if (this.wanted !== null) this.show(this.wanted);
  }

  show(pass: number | null): void {
    clearTimeout(this.restTimer);
    this.wanted = pass;
    if (pass === null) {
      if (this.shown !== null) this.view?.setGrowth(null);
      this.shown = null;
      this.tell();
      return;
    }
    this.attend(pass, false);
    this.draw();
    this.restTimer = setTimeout(() => { this.attend(pass, true); }, REST_MS);
  }

  frameAt(pass: number): Promise<GrowthFrame | null> {
    return new Promise((settle) => {
      this.waiters.push({ pass, settle });
      this.answer();
      if (this.waiters.length > 0) this.attend(this.waiters[0].pass, false);
    });
  }

  knownAt(pass: number): GrowthFrame | null {
    const { sock, hanger } = this, pair = hanger?.pairAt(pass) ?? null;
    if (sock === null || hanger === null || pair === null) return null;
    const isNear = pair.every(({ quality }) => quality > 0) && (this.progress === 1 || pair[1].pass - pair[0].pass <= NEAR_PASSES);
    const hung = isNear ? hanger.hangAt(pass) : null;
    return hung === null ? null : frameOf(sock, hanger, hung);
  }

  readonly positionsAt = (file: SockFile, pass: number): Float64Array | null => {
    const { sock, hanger } = this, isSame = sock !== null && shapeKey(file, 'beds', null) === keyOf(sock);
    const isKnown = isSame && hanger?.pairAt(pass)?.every(({ quality }) => quality > 0) === true;
    return isKnown ? hanger.hangAt(pass)?.positions ?? null : null;
  };

  state(): GrowthState {
    const { shown, progress, failure } = this;
    return { pass: shown?.pass ?? null, isRelaxed: shown?.isRelaxed ?? false, progress, failure };
  }

  onState(callback: (state: GrowthState) => void): () => void {
    this.listeners.add(callback);
    return () => { this.listeners.delete(callback); };
  }

  dispose(): void {
    clearTimeout(this.restTimer);
    this.halt();
    this.listeners.clear();
  }

  /** Calls the worker off; who waits for a frame is told that none comes. */
  private halt(): void {
    this.work.stop();
    this.isWorking = false;
    this.progress = 0;
    this.failure = null;
    for (const { settle } of this.waiters.splice(0)) settle(null);
  }

  private attend(pass: number, isResting: boolean): void {
    const { sock } = this, attention = { pass: Math.min(pass, (sock?.trace.passes.length ?? 1) - 1), isResting };
    if (sock === null || this.failure !== null) return;
    if (this.isWorking) { this.work.attend(attention); return; }
    this.isWorking = true;
    const hanger = this.hanger = createSockHanger(sock);
    this.work.grow(sock.file, attention, {
      onKeyframe: (keyframe, progress) => {
        (this.hanger ?? hanger).book.add(keyframe);
        this.progress = progress;
        this.answer();
        if (this.wanted !== null && this.isNews(this.wanted)) this.draw();
        else this.tell();
      },
      onFailed: (message) => {
        this.halt();
        this.failure = message;
        this.tell();
      },
    });
  }

  /** Whether the shape shown no longer is what is known of its pass. */
  private isNews(wanted: number): boolean {
    const pair = this.hanger?.pairAt(wanted) ?? null, before = this.drawnFrom;
    return pair?.[0] !== before?.[0] || pair?.[1] !== before?.[1];
  }

  private draw(): void {
    const { sock, hanger, wanted } = this;
    const hung = wanted === null ? null : hanger?.hangAt(wanted) ?? null;
    if (sock !== null && hanger !== null && hung !== null) {
      this.shown = hung;
      this.drawnFrom = hanger.pairAt(hung.pass);
      this.view?.setGrowth(frameOf(sock, hanger, hung));
    }
    this.tell();
  }

  /** Gives out the frames that are waited for and known by now; none come where nothing can be worked out. */
  private answer(): void {
    const isOver = this.sock === null || this.failure !== null;
    for (const waiter of [...this.waiters]) {
      const frame = isOver ? null : this.knownAt(waiter.pass);
      if (frame === null && !isOver) continue;
      this.waiters.splice(this.waiters.indexOf(waiter), 1);
      waiter.settle(frame);
    }
  }

  private tell(): void {
    const state = this.state();
    for (const listener of this.listeners) listener(state);
  }
}

function frameOf(sock: KnittedSock, { cloth }: SockHanger, hung: HungSock): GrowthFrame {
  return { ...hung, cloth, grid: sock.grid, yarnColours: coloursOf(sock), diametersMm: diametersOf(sock) };
}

function keyOf({ file }: KnittedSock): string { return shapeKey(file, 'beds', null); }
