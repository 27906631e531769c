import type { ControlContext, FolderSpec, NumberSpec } from './control-spec.ts';
import { lengthScale, plainScale } from './units.ts';

const isRibLeg = ({ file }: ControlContext): boolean => file.leg?.kind !== 'tube';
const isDecreasedToe = ({ file }: ControlContext): boolean => file.toe?.kind !== 'short-row';

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
      kind: 'number', field: 'toe.passesPerDecrease', label: 'Decrease rate', scale: () => plainScale('passes', 2),
      planned: ({ defaults }) => defaults.passesPerDecrease, usual: [2, 12], isShown: isDecreasedToe,
      hint: 'Four stitches go each time, after so many passes. Two passes make a round.',
    },
    {
      ...workedOut('toe.tipStitches', 'Tip width', 'stitches', 2, ({ plan }) => plan?.toeTipStitches ?? null),
      hint: 'Stitches left on each bed at the tip (short rows: its narrowest row).',
    },
    {
      kind: 'choice', field: 'toe.closing', label: 'Closed by', choices: { 'grafting, no ridge': 'graft', 'binding off, a small ridge': 'bind-off' },
      planned: ({ defaults }) => defaults.closing,
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
