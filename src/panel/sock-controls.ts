import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { namedChoices } from './control-spec.ts';
import type { ControlContext, FieldWords, FolderSpec, NumberSpec } from './control-spec.ts';
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

export function legFolder(): FolderSpec {
  const { fields, choices, folders } = pageWords().controls;
  return {
    title: folders.leg, isOpen: true,
    controls: [
      { kind: 'choice', field: 'leg.kind', ...fields.legKind, choices: namedChoices(choices.legKind), planned: ({ defaults }) => defaults.legKind },
      {
        kind: 'number', field: 'leg.lengthMm', ...fields.legLength, scale: ({ settings }) => lengthScale(settings.lengthUnit),
        planned: ({ defaults }) => defaults.legLengthMm, usual: [0, 400],
      },
      {
        kind: 'choice', field: 'leg.gatherBed', ...fields.gatherBed, choices: namedChoices(choices.gatherBed),
        planned: ({ defaults }) => defaults.gatherBed, isShown: isRibLeg,
      },
    ],
  };
}

export function heelFolder(): FolderSpec {
  const { fields, folders, units } = pageWords().controls;
  return {
    title: folders.heel, isOpen: true,
    controls: [
      {
        ...workedOut('heel.stitches', fields.heelStitches, '', 2, ({ plan }) => plan?.heelStitches ?? null),
        scale: ({ plan }) => plainScale(plan === null ? units.stitches : units.ofStitches(plan.stitches), 2),
      },
      workedOut('heel.turnDownWidth', fields.turnDown, units.stitches, 2, ({ plan }) => plan?.turnDownWidth ?? null),
      {
        kind: 'number', field: 'heel.plateauPasses', ...fields.plateau, scale: () => plainScale(units.passes, 2),
        planned: ({ defaults }) => defaults.plateauPasses, usual: [0, 24],
      },
      { kind: 'switch', field: 'heel.wraps', ...fields.wraps, planned: ({ defaults }) => defaults.heelWraps },
    ],
  };
}

export function toeFolder(): FolderSpec {
  const { fields, choices, folders, units } = pageWords().controls;
  return {
    title: folders.toe, isOpen: true,
    controls: [
      { kind: 'choice', field: 'toe.kind', ...fields.toeKind, choices: namedChoices(choices.toeKind), planned: ({ defaults }) => defaults.toeKind },
      { kind: 'choice', field: 'toe.closing', ...fields.closing, choices: namedChoices(choices.closing), planned: ({ defaults }) => defaults.closing },
      {
        ...workedOut('toe.tipStitches', fields.tip, units.stitches, 2, ({ plan }) => plan?.toeTipStitches ?? null),
        // A schedule leaves what it leaves.
        isShown: ({ file }) => file.toe?.kind === 'short-row' || ratesOf(file).length === 0 || file.toe?.tipStitches !== undefined,
      },
      { kind: 'number', field: 'toe.slantStitches', ...fields.slant, scale: () => plainScale(units.stitches, 2), planned: () => 0, usual: [0, 12], isShown: isDecreasedToe },
      {
        kind: 'choice', field: 'page.toeRates', ...fields.rates, choices: namedChoices(choices.rates),
        planned: ({ file }) => (ratesOf(file).length > 0 ? 'several' : 'one'), isShown: isDecreasedToe, write: chooseRates,
      },
      {
        kind: 'number', field: 'toe.passesPerDecrease', ...fields.rate, scale: () => plainScale(units.passes, 2),
        planned: ({ defaults }) => defaults.passesPerDecrease, usual: [2, 12], isShown: (context) => isDecreasedToe(context) && ratesOf(context.file).length === 0,
      },
    ],
  };
}

export function countsFolder(): FolderSpec {
  const { fields, folders, units } = pageWords().controls;
  return {
    title: folders.counts, isOpen: false,
    controls: [
      workedOut('counts.stitches', fields.stitches, units.stitches, 4, ({ plan }) => plan?.stitches ?? null),
      { ...workedOut('counts.legPasses', fields.legPasses, units.passes, 1, ({ plan }) => plan?.legPasses ?? null), usual: [0, 240] },
      { ...workedOut('counts.anklePasses', fields.anklePasses, units.passes, 2, ({ plan }) => plan?.anklePasses ?? null), usual: [0, 40] },
      { ...workedOut('counts.footPasses', fields.footPasses, units.passes, 2, ({ plan }) => plan?.footPasses ?? null), usual: [2, 260] },
    ],
  };
}

export function machineFolder(): FolderSpec {
  const { fields, folders, units } = pageWords().controls;
  return {
    title: folders.machine, isOpen: false,
    controls: [
      { kind: 'number', field: 'machine.needlesPerBed', ...fields.needles, scale: () => plainScale(units.needles, 2), planned: ({ defaults }) => defaults.needlesPerBed },
      { kind: 'number', field: 'machine.needlePitchMm', usual: [2, 12], ...fields.pitch, scale: () => plainScale('mm', 0.1, 2), planned: ({ defaults }) => defaults.needlePitchMm },
    ],
  };
}

function workedOut(field: string, words: FieldWords, unit: string, step: number, planned: NumberSpec['planned']): NumberSpec {
  return { kind: 'number', field, ...words, scale: () => plainScale(unit, step), planned, freedom: 'worked-out' };
}
