import { SECTION } from '../machine/codes.ts';
import type { LookHooks, LookStep } from '../panel/look-bar.ts';
import type { PageState, RoomName, Settings } from '../panel/page-state.ts';
import type { SockView } from '../view/sock-view-types.ts';
import { MOST_CUT } from './settings.ts';

const PARTS: Readonly<Record<'heel' | 'toe', ReadonlySet<number>>> = {
  heel: new Set<number>([SECTION['heel-in'], SECTION['heel-level'], SECTION['heel-out'], SECTION.ankle]),
  toe: new Set<number>([SECTION.toe, SECTION['toe-in'], SECTION['toe-out']]),
};
/** Pixels a stitch of the two closest looks. */
const FEW_PIXELS = 40, ONE_PIXELS = 160;
/** The lesson shows its own socks as it wants them. */
const CUT_ROOMS: ReadonlySet<RoomName> = new Set<RoomName>(['shape', 'chart']);

export interface CloseLook {
  readonly hooks: LookHooks;
  /** All of the sock again. */
  showWhole(): void;
  show(step: LookStep): void;
  /** The next of a few cuts, and none after the last. */
  cutFurther(): void;
  turnInsideOut(): void;
  render(state: PageState): void;
}

/** Neither what hangs from needles nor the lesson's socks. */
function canCut({ settings: { room, pose } }: PageState): boolean { return CUT_ROOMS.has(room) && pose !== 'beds'; }

const CUTS = [0, 0.25, 0.5, 0.75] as const;
/** A sock that lies flat has two sides: any plane between them takes off the one and leaves the other. */
const FLAT_CUT = 0.5;

/** What the picture is told of the cut; null for none. */
function shownCutOf(state: PageState): number | null {
  const { settings: { cut, pose } } = state;
  return !canCut(state) || cut === 0 ? null : pose === 'flat' ? FLAT_CUT : cut;
}

/** The next of a few cuts, and none after the last. */
function nextCut({ settings: { cut, pose } }: PageState): number {
  return pose === 'flat' ? (cut > 0 ? 0 : FLAT_CUT) : CUTS.find((next) => next > cut) ?? 0;
}

/** Brings the picture close, cuts the sock away and turns it inside out. `lookedAt`: the stitch that a close look is at, -1 for none. */
export function createCloseLook(view: SockView | null, state: () => PageState, choose: (change: Partial<Settings>) => void, lookedAt: () => number): CloseLook {
  const showWhole = (): void => {
    if (state().settings.room !== 'lesson') view?.lookAt(null);
    view?.reset();
  };
  const show = (step: LookStep): void => {
    if (step === 'whole') { showWhole(); return; }
    if (step === 'heel' || step === 'toe') {
      view?.lookAt(PARTS[step]);
      view?.reset();
      return;
    }
    const loop = lookedAt();
    if (loop >= 0) view?.approach(loop, step === 'few' ? FEW_PIXELS : ONE_PIXELS);
  };
  const setInsideOut = (isInsideOut: boolean): void => { choose({ isInsideOut }); };
  let shownCut: number | null = null, shownInside = false;
  return {
    showWhole, show,
    hooks: { show, setCut: (cut) => { choose({ cut }); }, setInsideOut, detail: () => view?.detail() ?? null, mostCut: MOST_CUT },
    cutFurther: () => { if (canCut(state())) choose({ cut: nextCut(state()) }); },
    turnInsideOut: () => { if (canCut(state())) setInsideOut(!state().settings.isInsideOut); },
    render: (now) => {
      const wantedCut = shownCutOf(now), wantedInside = canCut(now) && now.settings.isInsideOut;
      if (wantedCut !== shownCut) view?.setCut(wantedCut);
      if (wantedInside !== shownInside) view?.setInsideOut(wantedInside);
      [shownCut, shownInside] = [wantedCut, wantedInside];
    },
  };
}
