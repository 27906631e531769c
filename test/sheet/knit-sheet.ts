import { numbersIn, readSheet, wordsIn } from './read-sheet.ts';
import type { ReadSheet } from './read-sheet.ts';

type Bed = 'front' | 'back';
type Side = 'left' | 'right';
const BEDS = ['front', 'back'] as const;
const other = (bed: Bed): Bed => (bed === 'front' ? 'back' : 'front');

/** What was seen on the needles after a pass: a figure a needle, 0 empty, 1 working, 2 held, front bed first. */
export interface SeenPass { readonly pass: number; readonly section: string; readonly states: string; readonly knitted: number; readonly to: Side; readonly wraps: number }

export interface KnittedSheet { readonly seen: readonly SeenPass[]; readonly liveAtEnd: number }

/** The least that beds are: a count of loops on each needle, and which needles are held. */
class Needles {
  readonly loops: Readonly<Record<Bed, number[]>>;
  readonly held: Readonly<Record<Bed, Set<number>>> = { front: new Set(), back: new Set() };
  constructor(readonly count: number) {
    this.loops = { front: Array<number>(count + 1).fill(0), back: Array<number>(count + 1).fill(0) };
  }
  move(from: Bed, at: number, to: Bed, onto: number): void {
    if (!(this.loops[from][at] > 0)) throw new Error(`nothing on the ${from} bed's needle ${at} to move`);
    this.loops[to][onto] += this.loops[from][at];
    this.loops[from][at] = 0;
  }
  /** Stitches knitted. */
  knit(beds: readonly Bed[]): number {
    let knitted = 0;
    for (const bed of beds) {
      for (let needle = 1; needle <= this.count; needle++) {
        if (this.loops[bed][needle] === 0 || this.held[bed].has(needle)) continue;
        this.loops[bed][needle] = 1;
        knitted += 1;
      }
    }
    return knitted;
  }
  states(): string {
    let states = '';
    for (const bed of BEDS) for (let at = 1; at <= this.count; at++) states += this.loops[bed][at] === 0 ? '0' : this.held[bed].has(at) ? '2' : '1';
    return states;
  }
}

/** `L3`, `R1`, `0` counted from the middle, or a number from the left end, as the sheet says. */
function needleReader(sheet: ReadSheet, count: number): (label: string) => number {
  const isMiddle = (sheet.words.get('The sock') ?? '').includes('from the middle');
  return (label) => {
    const half = Math.floor(count / 2), number = Number(label.replace(/^[LR]/, ''));
    const needle = !isMiddle ? number : label === '0' ? half + 1 : label.startsWith('L') ? half + 1 - number : half + (count % 2) + number;
    if (!Number.isInteger(needle) || needle < 1 || needle > count) throw new Error(`there is no needle ${label}`);
    return needle;
  };
}

/**
 * Knits from a sheet's text alone, as a person would who has nothing else: needles from the cast-on's table, sections
 * from the one at a glance, moves from the tables. Throws where the sheet asks for what cannot be done, or where its
 * own numbers do not agree with what is on the needles.
 */
export function knitSheet(text: string): KnittedSheet {
  const sheet = readSheet(text), [count] = numbersIn(sheet, 'The sock', /two beds of (\d+) needles/), needle = needleReader(sheet, count);
  const needles = new Needles(count), rows = (key: string) => sheet.tables.get(key) ?? [];
  for (const row of rows('Cast-on/Needles for the cast-on')) {
    const bed = row['Bed'] as Bed, step = row['Needles'] === 'every' ? 1 : 2, [low, high] = [needle(row['From']), needle(row['To'])].sort((a, b) => a - b);
    let made = 0;
    for (let at = low; at <= high; at += step, made++) needles.loops[bed][at] = 1;
    expectSame(made, Number(row['Stitches']), `stitches of the ${bed} bed`);
  }
  const before = movesBefore(sheet, needles, needle), bedsOf = bedsBySection(sheet);
  let carriage = wordsIn(sheet, 'Cast-on', /Carriage: (\w+)/)[0] as Side, pass = 0;
  const seen: SeenPass[] = [];
  for (const row of rows('At a glance/Sections in order')) {
    const [from, to] = row['Counter'].split(' to ').map(Number), [start, end] = row['Carriage'].split(' to ');
    expectSame(pass, from, `the counter before ${row['Section']}`);
    expectSame(carriage, start, `the carriage before ${row['Section']}`);
    for (let place = 0; pass < to; place++) {
      pass += 1;
      const after = before(pass, carriage);
      const knitted = needles.knit(bedsOf(row['Section'], place));
      carriage = carriage === 'left' ? 'right' : 'left';
      seen.push({ pass, section: row['Section'], states: needles.states(), knitted, to: carriage, wraps: after(carriage, knitted) });
    }
    expectSame(carriage, end, `the carriage after ${row['Section']}`);
  }
  return { seen, liveAtEnd: closeToe(sheet, needles, needle) };
}

/** Which beds knit the pass at a place of its section. */
function bedsBySection(sheet: ReadSheet): (section: string, place: number) => Bed[] {
  const inTurn = (part: string, place: number): Bed[] => {
    const first = wordsIn(sheet, part, /the (front|back) bed first, the beds in turn/)[0] as Bed;
    return [place % 2 === 0 ? first : other(first)];
  };
  return (section, place) => {
    if (section === 'Leg') return (sheet.words.get('Leg') ?? '').includes('both beds together') ? [...BEDS] : inTurn('Leg', place);
    if (section === 'Plain rows') return [wordsIn(sheet, 'Gather and turn', /plain rows? on the (front|back) bed alone/)[0] as Bed];
    if (section === 'Ankle' || section === 'Foot') return inTurn(section, place);
    // The rounds of the toe go on as those of the foot, which are even in number.
    if (section === 'Toe') return inTurn('Foot', place);
    const part = section.startsWith('Heel') ? 'Heel' : 'Toe';
    return [wordsIn(sheet, part, part === 'Heel' ? /The (front|back) bed alone knits the heel/ : /like a heel on the (front|back) bed/)[0] as Bed];
  };
}

type After = (carriage: Side, knitted: number) => number;

/** Does what the tables ask for before a pass; gives what they ask for after it, with a count of wraps. */
function movesBefore(sheet: ReadSheet, needles: Needles, needle: (label: string) => number): (pass: number, carriage: Side) => After {
  const heel = wordsIn(sheet, 'Heel', /The (front|back) bed alone/)[0] as Bed;
  const transfers = readTransfers(sheet);
  const toe = sheet.tables.get('Toe/Decreases: before which pass, stitches then on a bed, passes then knitted') ?? [];
  const holds = ['Heel', 'Toe'].flatMap((part) => [
    ...(sheet.tables.get(`${part}/Into hold, pass by pass`) ?? []), ...(sheet.tables.get(`${part}/Back to work, pass by pass`) ?? []),
  ]);
  return (pass, carriage) => {
    for (const move of transfers.filter((transfer) => transfer.before === pass)) needles.move(move.from, needle(move.at), move.to, needle(move.onto));
    for (const row of toe.filter((decrease) => Number(decrease['Before']) === pass)) {
      decrease(needles, row['Left end'], 1, needle);
      decrease(needles, row['Right end'], -1, needle);
      for (const bed of BEDS) expectSame(needles.loops[bed].filter((loops) => loops > 0).length, Number(row['A bed']), `stitches left before pass ${pass}`);
    }
    const row = holds.find((held) => Number(held['Pass']) === pass);
    if (row === undefined) return () => 0;
    const moved = row['Hold'] ?? row['Work'], bed = needles.held[heel];
    if (row['Hold'] !== undefined) {
      if (needles.loops[heel][needle(moved)] === 0 || bed.has(needle(moved))) throw new Error(`pass ${pass}: ${moved} does not work`);
      bed.add(needle(moved));
    } else if (!bed.delete(needle(moved))) throw new Error(`pass ${pass}: ${moved} is not held`);
    expectSame(sideOf(needles, heel, needle(moved)), carriage === 'left' ? 'right' : 'left', `the end of ${moved} before pass ${pass}`);
    return (now, knitted) => {
      expectSame(knitted, Number(row['Knits']), `stitches of pass ${pass}`);
      expectSame(now, row['To'], `the carriage of pass ${pass}`);
      if (row['Wrap'] === '–') return 0;
      const [, named, label] = /^(?:(front|back) )?(\S+)$/.exec(row['Wrap']) ?? [], at = needle(label), wrapped = (named as Bed | undefined) ?? heel;
      if (needles.loops[wrapped][at] === 0) throw new Error(`pass ${pass}: nothing to wrap on ${row['Wrap']}`);
      expectSame(sideOf(needles, wrapped, at), now, `the wrap of pass ${pass}`);
      needles.loops[wrapped][at] += 1;
      return 1;
    };
  };
}

/** On which side of its bed's middle a needle is. */
function sideOf(needles: Needles, bed: Bed, at: number): Side {
  const carrying = needles.loops[bed].flatMap((loops, place) => (loops > 0 ? [place] : []));
  return at < (carrying[0] + carrying[carrying.length - 1]) / 2 ? 'left' : 'right';
}

/** The two outermost loops of both beds one needle inward, in the order given. */
function decrease(needles: Needles, cell: string, inward: number, needle: (label: string) => number): void {
  if (cell === '–') return;
  for (const label of cell.split(' ')) for (const bed of BEDS) needles.move(bed, needle(label), bed, needle(label) + inward);
}

interface Transfer { readonly before: number; readonly from: Bed; readonly at: string; readonly to: Bed; readonly onto: string }

function readTransfers(sheet: ReadSheet): Transfer[] {
  return [...sheet.tables].flatMap(([key, rows]) => {
    const match = /^(.+)\/(Gathering|Turning|Moved stitches): from the (\w+) bed to the (\w+) bed$/.exec(key);
    if (match === null) return [];
    const [, part, what, from, to] = match;
    const [start, end] = part === 'Gather and turn' ? numbersIn(sheet, part, /Counter: (\d+) to (\d+)/) : [0, 0];
    return rows.map((row) => ({
      before: what === 'Gathering' ? start + 1 : what === 'Turning' ? end + 1 : Number(row['Before pass']),
      from: from as Bed, at: row['From'], to: to as Bed, onto: row['To'],
    }));
  });
}

/** Takes all loops off as the sheet says; how many are left. */
function closeToe(sheet: ReadSheet, needles: Needles, needle: (label: string) => number): number {
  const words = sheet.words.get('Closing') ?? '';
  const [pairs, first, last] = words.includes('Counter') && /Graft: /.test(words) ? wordsIn(sheet, 'Closing', /Graft: .*?(\d+) pairs?, from (\w+) to (\w+)\./)
    : wordsIn(sheet, 'Closing', /Bind off: move the (\d+) loops .* from (\w+) to (\w+)\. Break/);
  const [low, high] = [needle(first), needle(last)].sort((a, b) => a - b);
  expectSame(high - low + 1, Number(pairs), 'the pairs of the closing');
  for (const bed of BEDS) for (let at = low; at <= high; at++) {
    if (needles.loops[bed][at] === 0) throw new Error(`nothing to close on the ${bed} bed's needle ${at}`);
    needles.loops[bed][at] = 0;
  }
  return BEDS.flatMap((bed) => needles.loops[bed]).reduce((sum, loops) => sum + loops, 0);
}

function expectSame(found: string | number, wanted: string | number, what: string): void {
  if (found !== wanted) throw new Error(`${what}: ${found}, and the sheet has ${wanted}`);
}
