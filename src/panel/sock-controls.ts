import type { SockFile } from '../plan/sock-file.ts';
import type { ControlContext, FolderSpec, NumberSpec } from './control-spec.ts';
import { writeField } from './field-path.ts';
import { firstRates, ratesOf } from './toe-schedule.ts';
import { lengthScale, plainScale } from './units.ts';

const isRibLeg = ({ file }: ControlContext): boolean => file.leg?.kind !== 'tube';
const isDecreasedToe = ({ file }: ControlContext): boolean => file.toe?.kind !== 'short-row';

/** Into several rates the toe goes as it is, and a tip fixed by hand gives way: the rates leave their own. */
function chooseRates({ file, plan }: ControlContext, value: unknown): SockFile {
  if (value !== 'several') return writeField(file, 'toe.schedule', undefined);
  return plan === null ? file : writeField(writeField(file, 'toe.tipStitches', undefined), 'toe.schedule', firstRates(plan));
}

export const legFolder: FolderSpec = {
  title: 'Leg', isOpen: true,
  controls: [
    {
      kind: 'choice', field: 'leg.kind', label: 'Knitted as', choices: { 'flat rib, seamed': 'flat-rib', 'plain tube': 'tube' },
      planned: ({ defaults }) => defaults.legKind,
    },
    {
      kind: 'number', field: 'leg.lengthMm', label: 'Leg length', scale: ({ settings }) => lengthScale(settings.lengthUnit),
      planned: ({ defaults }) => defaults.legLengthMm, usual: [0, 400],
    },
    {
      kind: 'choice', field: 'leg.gatherBed', label: 'Gather on', choices: { 'back bed, heel in front': 'back', 'front bed, heel at the back': 'front' },
      planned: ({ defaults }) => defaults.gatherBed, isShown: isRibLeg,
      hint: 'The bed that takes all stitches before the work is turned. The heel is knitted on the other one.',
    },
  ],
};

export const heelFolder: FolderSpec = {
  title: 'Heel', isOpen: true,
  controls: [
    {
      ...workedOut('heel.stitches', 'Heel stitches', '', 2, ({ plan }) => plan?.heelStitches ?? null),
      scale: ({ plan }) => plainScale(plan === null ? 'stitches' : `of ${plan.stitches}`, 2),
      hint: 'Half of all stitches, unless more are moved to the heel’s bed: a broader, deeper heel.',
    },
    {
      ...workedOut('heel.turnDownWidth', 'Turn-down width', 'stitches', 2, ({ plan }) => plan?.turnDownWidth ?? null),
      hint: 'Stitches still knitting at the narrowest row of the heel. Fewer make a deeper heel, for a high instep.',
    },
    {
      kind: 'number', field: 'heel.plateauPasses', label: 'Plateau', scale: () => plainScale('passes', 2),
      planned: ({ defaults }) => defaults.plateauPasses, usual: [0, 24], hint: 'Passes knitted straight at the narrowest width, before turning out.',
    },
    {
      kind: 'switch', field: 'heel.wraps', label: 'Wrap the held needles at turns', planned: ({ defaults }) => defaults.heelWraps,
      hint: 'Yarn laid round the nearest held needle at each turn, so that no hole opens.',
    },
  ],
};

export const toeFolder: FolderSpec = {
  title: 'Toe', isOpen: true,
  controls: [
    {
      kind: 'choice', field: 'toe.kind', label: 'Shaped by', choices: { decreases: 'decreased', 'short rows': 'short-row' },
      planned: ({ defaults }) => defaults.toeKind,
    },
    {
      kind: 'choice', field: 'toe.closing', label: 'Closed by', choices: { 'grafting, no ridge': 'graft', 'binding off, a small ridge': 'bind-off' },
      planned: ({ defaults }) => defaults.closing,
    },
    {
      ...workedOut('toe.tipStitches', 'Tip width', 'stitches', 2, ({ plan }) => plan?.toeTipStitches ?? null),
      hint: 'Stitches left on each bed at the tip (short rows: its narrowest row).',
      // A schedule leaves what it leaves.
      isShown: ({ file }) => file.toe?.kind === 'short-row' || ratesOf(file).length === 0 || file.toe?.tipStitches !== undefined,
    },
    {
      kind: 'number', field: 'toe.slantStitches', label: 'Slant', scale: () => plainScale('stitches', 2), planned: () => 0, usual: [0, 12], isShown: isDecreasedToe,
      hint: 'So many stitches a bed are decreased more on the side of the little toe: a left and a right sock. Choose the foot’s side under Foot.',
    },
    {
      kind: 'choice', field: 'page.toeRates', label: 'Decreases', choices: { 'at one rate': 'one', 'at several rates': 'several' },
      planned: ({ file }) => (ratesOf(file).length > 0 ? 'several' : 'one'), isShown: isDecreasedToe, write: chooseRates,
      hint: 'Several rates, one after the other, make a toe rounder or more pointed.',
    },
    {
      kind: 'number', field: 'toe.passesPerDecrease', label: 'Decrease rate', scale: () => plainScale('passes', 2),
      planned: ({ defaults }) => defaults.passesPerDecrease, usual: [2, 12], isShown: (context) => isDecreasedToe(context) && ratesOf(context.file).length === 0,
      hint: 'Four stitches go each time, after so many passes. Two passes make a round.',
    },
  ],
};

export const countsFolder: FolderSpec = {
  title: 'Counts, auto or by hand', isOpen: false,
  controls: [
    workedOut('counts.stitches', 'Stitches round', 'stitches', 4, ({ plan }) => plan?.stitches ?? null),
    { ...workedOut('counts.legPasses', 'Leg', 'passes', 1, ({ plan }) => plan?.legPasses ?? null), usual: [0, 240] },
    { ...workedOut('counts.anklePasses', 'Ankle', 'passes', 2, ({ plan }) => plan?.anklePasses ?? null), usual: [0, 40] },
    { ...workedOut('counts.footPasses', 'Foot', 'passes', 2, ({ plan }) => plan?.footPasses ?? null), usual: [2, 260] },
  ],
};

export const machineFolder: FolderSpec = {
  title: 'Machine', isOpen: false,
  controls: [
    { kind: 'number', field: 'machine.needlesPerBed', label: 'Needles a bed', scale: () => plainScale('needles', 2), planned: ({ defaults }) => defaults.needlesPerBed },
    { kind: 'number', field: 'machine.needlePitchMm', usual: [2, 12], label: 'Needle pitch', scale: () => plainScale('mm', 0.1, 2), planned: ({ defaults }) => defaults.needlePitchMm },
  ],
};

function workedOut(field: string, label: string, unit: string, step: number, planned: NumberSpec['planned']): NumberSpec {
  return { kind: 'number', field, label, scale: () => plainScale(unit, step), planned, freedom: 'worked-out' };
}
