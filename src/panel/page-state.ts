import type { Problem } from '../base/problem.ts';
import type { DifferenceMap } from '../choose/comparison.ts';
import type { Measures } from '../measure/measures.ts';
import type { KnittedSock, LaidYarn, PosedSock } from '../pipeline/result.ts';
import type { Derivation, Plan, PlannedFoot } from '../plan/plan-types.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';
import type { NeedleNumbers } from '../sheet/needle-label.ts';
import type { Language } from '../words/words.ts';
import type { Arrangement, ClothLayer, FootLook, Theme } from '../view/sock-view-types.ts';
import type { GaugeUnit, LengthUnit } from './units.ts';

/** What a person has chosen about the page itself, not about a sock. */
export interface Settings {
  readonly lengthUnit: LengthUnit;
  readonly gaugeUnit: GaugeUnit;
  /** The patch over which stitches and rows are counted, mm. */
  readonly patchWidthMm: number;
  readonly patchHeightMm: number;
  /** `auto` follows the system. */
  readonly theme: Theme | 'auto';
  readonly pose: PoseName;
  /** The room of the page that is shown. */
  readonly room: RoomName;
  readonly language: Language;
  /** How needles are counted on this person's machine. */
  readonly needleNumbers: NeedleNumbers;
  /** What the cloth's colours tell. */
  readonly layer: ClothLayer;
  /** How a foot in a worn sock is seen. */
  readonly footLook: FootLook;
  /** How a sock to compare with lies to the one on the panel. */
  readonly arrangement: Arrangement;
  /** How far the sock is cut away from the side that is looked at: 0 not at all, 1 all of it. */
  readonly cut: number;
  /** Shown turned inside out. */
  readonly isInsideOut: boolean;
}

/** The counts of a knittable sock and its measures along the unstretched fabric. */
export interface PlannedSock {
  readonly plan: Plan;
  readonly derivations: readonly Derivation[];
  readonly foot: PlannedFoot;
  readonly rest: Measures;
}

/** Something the page has to tell, with what to do about it. */
export interface Notice {
  readonly id: 'file' | 'keep' | 'keep-companion' | 'worker' | 'graphics' | 'example' | 'advice' | 'socks' | 'link' | 'update' | 'room';
  readonly title: string;
  readonly problems: readonly Problem[];
  /** It tells of a change of the sock, which its own button takes back. */
  readonly canUndo?: boolean;
  /** Of such a change: the sock before it, to be compared with. */
  readonly before?: SockFile;
  /** What its own button does. */
  readonly act?: { readonly label: string; readonly run: () => void };
}

/** Rooms of the page: the sock's shape with its controls; its making pass by pass; a lesson; the chart; the printed sheet; the mode for the machine's stand. */
export type RoomName = 'shape' | 'passes' | 'lesson' | 'chart' | 'sheet' | 'stand';

/** A stitch that is pointed at somewhere, and shown everywhere: a loop of the knitted sock's grid. */
export interface Spot { readonly loop: number; readonly from: 'picture' | 'finished' | 'beds' | 'chart' | 'words' }

/** A stitch that has been picked, and stays so: a loop of the grid, and where it was formed and what it is, by which it is found again in another sock's grid. */
export interface Picked { readonly loop: number; readonly pass: number; readonly bed: number; readonly needle: number; readonly kind: number }

/** The pages of the deck beside the picture. */
export type DeckTab = 'measures' | 'fit' | 'compare';

/** How the shape in the picture stands. `fraction` is 0..1 while it relaxes. */
export type ShapeState =
  | { readonly kind: 'none' }
  | { readonly kind: 'relaxing'; readonly fraction: number }
  | { readonly kind: 'settled'; readonly milliseconds: number }
  /** The file on the panel cannot be knitted: the picture is of the last one that could. */
  | { readonly kind: 'kept' };

/** A sock that is kept to compare the one on the panel with. */
export interface CompanionState {
  readonly name: string;
  /** Null where what was kept cannot be read. */
  readonly file: SockFile | null;
  /** Why it cannot be read or knitted. */
  readonly problems: readonly Problem[];
  readonly knitted: KnittedSock | null;
  /** In the same pose as the sock on the panel; null while under way. */
  readonly posed: PosedSock | null;
  readonly shape: ShapeState;
}

/** Yarn along the loops of a sock (`key`: laidKey), and the pose at rest in which it was measured. */
export interface LaidState { readonly key: string; readonly pose: PoseName; readonly yarns: readonly LaidYarn[] }

/** Everything that the panels show. Owned by src/main.ts; panels only read it. */
export interface PageState {
  /** The sock's own name in the person's list, by which what belongs to it can be kept. */
  readonly sockId: string;
  /** The file as the panel stands, knittable or not. */
  readonly file: SockFile;
  /** What keeps the file from being knitted. */
  readonly problems: readonly Problem[];
  /** What to look at again in a file that can be knitted: measures that contradict each other, say. */
  readonly remarks: readonly Problem[];
  /** Of the last knittable file. */
  readonly planned: PlannedSock | null;
  readonly knitted: KnittedSock | null;
  /** Null until the shape belongs to `knitted` and the chosen pose. */
  readonly posed: PosedSock | null;
  readonly shape: ShapeState;
  /** What was measured last, of this sock or of one before it (laidOf tells); null or missing before there was any. */
  readonly laid?: LaidState | null;
  /** Of a second sock in the same pose; null or missing while there is none. */
  readonly difference?: DifferenceMap | null;
  readonly settings: Settings;
  /** The stitch that is pointed at, in whatever drawing; null or missing while there is none. */
  readonly spot?: Spot | null;
  /** The stitch that stays marked until it is let go; null or missing while there is none. Of this sock only where `pickedLoop` says so. */
  readonly picked?: Picked | null;
  /** On the beds: the pass that the person has chosen, null for the usual one; never beyond the sock's last. */
  readonly bedsPass: number | null;
  /** The page of the deck that is shown; a visit begins with the measures. */
  readonly tab: DeckTab;
  /** Null while no sock is kept to compare with. */
  readonly companion: CompanionState | null;
  readonly notices: readonly Notice[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}
