import { ARCH_KINDS, FOOT_SIDES, TOE_OUTLINES } from '../foot/foot-kinds.ts';
import { SHOE_SYSTEMS } from '../foot/shoe-size.ts';
import type { GroupRule, NumberRule, Rule } from './field-rule.ts';

/** `heelwright` in a sock file: the version of its form. */
export const SOCK_FILE_VERSION = 1;

/** The kernels count yarns in a byte; more than this is a slip. */
const MOST_YARNS = 24;
/** Nobody changes the rate of a toe more often than this. */
const MOST_RATES = 12;
const MOST_SWATCHES = 12;

function num(label: string, min: number, max: number, unit: string, multipleOf: NumberRule['multipleOf'] = 0): NumberRule {
  return { kind: 'number', label, min, max, unit, multipleOf };
}

function choice(label: string, ...choices: readonly (string | number)[]): Rule {
  return { kind: 'choice', label, choices };
}

function group(label: string, fields: Readonly<Record<string, Rule>>, needs: readonly string[] = []): GroupRule {
  return { kind: 'group', label, fields, needs };
}

const BEDS = ['front', 'back'] as const;

/**
 * The sock file, field by field, in the order in which it is written.
 * Limits of gauge, foot, ease, leg, yarn and machine are the contract's. The others are chosen
 * wide: girths to beyond the public survey of test/data, counts to what the longest leg and foot
 * come to at the finest gauge (800 mm and 520 mm at 2 rows a mm, two passes a round), and the
 * rest so that a slip of the keyboard does not knit a million passes.
 */
export const SOCK_SCHEMA = group('sock file', {
  heelwright: choice('version of the file', SOCK_FILE_VERSION),
  name: { kind: 'text', label: 'name' },
  gauge: group('gauge', {
    stitchesPer10cm: num('stitches in 10 cm', 8, 120, 'stitches'),
    rowsPer10cm: num('rows in 10 cm', 8, 200, 'rows'),
    ribWidthFactor: num('width of the rib over that of plain knitting', 0.3, 1.2, ''),
    swatches: {
      kind: 'list',
      label: 'swatches',
      longest: MOST_SWATCHES,
      of: group('swatch', {
        stitches: num('stitches counted', 1, 1000, 'stitches'),
        widthMm: num('width of the patch', 10, 1000, 'mm'),
        rows: num('rows counted', 1, 2000, 'rows'),
        heightMm: num('height of the patch', 10, 1000, 'mm'),
        washed: { kind: 'flag', label: 'washed' },
      }, ['stitches', 'widthMm', 'rows', 'heightMm']),
    },
  }, ['stitchesPer10cm', 'rowsPer10cm']),
  foot: group('foot', {
    lengthMm: num('foot length', 60, 400, 'mm'),
    shoeSize: group('shoe size', {
      system: choice('shoe size system', ...SHOE_SYSTEMS),
      value: num('shoe size', 0.5, 400, ''),
    }, ['system', 'value']),
    ballGirthMm: num('girth of the foot at the ball', 60, 450, 'mm'),
    heelDiagonalMm: num('girth over heel and instep', 60, 650, 'mm'),
    ankleGirthMm: num('ankle girth', 60, 600, 'mm'),
    calfGirthMm: num('calf girth', 60, 800, 'mm'),
    heelBreadthMm: num('heel breadth', 20, 150, 'mm'),
    arch: choice('arch', ...ARCH_KINDS),
    toes: choice('outline of the toes', ...TOE_OUTLINES),
    side: choice('side of the foot', ...FOOT_SIDES),
  }),
  ease: group('ease', {
    girthPercent: num('ease in girth', -40, 30, '%'),
    lengthPercent: num('ease in length', -40, 30, '%'),
  }),
  leg: group('leg', {
    kind: choice('kind of leg', 'flat-rib', 'tube'),
    lengthMm: num('leg length', 0, 800, 'mm'),
    gatherBed: choice('bed that gathers the rib', ...BEDS),
  }),
  heel: group('heel', {
    stitches: num('stitches of the heel', 4, 600, 'stitches', 2),
    turnDownWidth: num('turn-down width', 2, 398, 'stitches', 2),
    plateauPasses: num('plateau passes', 0, 100, 'passes', 2),
    wraps: { kind: 'flag', label: 'wraps' },
  }),
  toe: group('toe', {
    kind: choice('kind of toe', 'decreased', 'short-row'),
    passesPerDecrease: num('passes per decrease', 2, 40, 'passes', 2),
    schedule: {
      kind: 'list',
      label: 'toe schedule',
      longest: MOST_RATES,
      of: group('rate', { passes: num('passes per decrease', 2, 40, 'passes', 2), times: num('times', 1, 200, 'times', 1) }, ['passes', 'times']),
    },
    slantStitches: num('slant of the toe', 0, 100, 'stitches', 2),
    tipStitches: num('stitches at the tip', 2, 398, 'stitches', 2),
    closing: choice('closing', 'graft', 'bind-off'),
  }),
  cloth: group('cloth', { firmness: choice('fabric firmness', 'soft', 'medium', 'firm') }),
  counts: group('counts', {
    stitches: num('stitches round', 8, 800, 'stitches', 4),
    legPasses: num('leg passes', 0, 3200, 'passes', 1),
    anklePasses: num('ankle passes', 0, 200, 'passes', 2),
    footPasses: num('foot passes', 2, 2080, 'passes', 2),
  }),
  yarns: {
    kind: 'list',
    label: 'yarns',
    longest: MOST_YARNS,
    of: group('yarn', {
      name: { kind: 'text', label: 'name of the yarn' },
      metresPer100g: num('metres in 100 g', 20, 2000, 'm'),
      colour: { kind: 'colour', label: 'colour of the yarn' },
      from: choice('part where the yarn begins', 'leg', 'ankle', 'heel', 'foot', 'toe'),
      stripePasses: num('passes a stripe', 2, 400, 'passes', 2),
    }),
  },
  machine: group('machine', {
    needlesPerBed: num('needles a bed', 20, 400, 'needles', 1),
    needlePitchMm: num('needle pitch', 1, 20, 'mm'),
  }),
}, ['gauge']);

/** The rule at a dotted path (`gauge.rowsPer10cm`; a list's place is any whole number), or null. */
export function ruleAt(path: string): Rule | null {
  let rule: Rule = SOCK_SCHEMA;
  for (const key of path.split('.')) {
    if (rule.kind === 'group' && Object.hasOwn(rule.fields, key)) rule = rule.fields[key];
    else if (rule.kind === 'list' && /^\d+$/.test(key)) rule = rule.of;
    else return null;
  }
  return rule;
}

/** Limits of a number field; a path that names none is a slip of ours. */
export function numberRuleAt(path: string): NumberRule {
  const rule = ruleAt(path);
  if (rule?.kind !== 'number') throw new Error(`${path} is no number field of a sock file`);
  return rule;
}
