/**
 * A second, minimal needle model, written for the tests from the description of the files in src/sheet/write-passes.ts alone.
 * It shares no code with src/machine: needles are keys of a map, loops are numbers in the order of forming.
 */
export interface SecondLoop { readonly pass: number; readonly needle: string; readonly yarn: number; readonly through: readonly number[]; readonly kind: 'cast-on' | 'knit' | 'wrap' | 'join' | 'bind-off' }

export interface SecondStop {
  readonly stop: number; readonly kind: string; readonly from: string; readonly to: string; readonly beds: readonly string[];
  readonly knitted: number; readonly yarn: number; readonly before: readonly string[]; readonly after: readonly string[];
}

export interface SecondKnitting {
  readonly loops: readonly SecondLoop[];
  /** After each pass, before its wraps: needles that work and needles that are held, by name. */
  readonly states: readonly { readonly working: ReadonlySet<string>; readonly held: ReadonlySet<string> }[];
  readonly live: number;
  readonly sides: readonly string[];
}

const numberOf = (needle: string): number => Number(needle.slice(1));

export function knitAgain(stops: readonly SecondStop[]): SecondKnitting {
  const loops: SecondLoop[] = [], states: { working: Set<string>; held: Set<string> }[] = [], sides: string[] = [];
  const on = new Map<string, number[]>(), held = new Set<string>();
  let yarn = 1;
  const take = (needle: string): number[] => {
    const had = on.get(needle);
    if (had === undefined || had.length === 0) throw new Error(`no loop on ${needle}`);
    on.delete(needle);
    return had;
  };
  const form = (pass: number, needle: string, through: readonly number[], kind: SecondLoop['kind']): number => {
    loops.push({ pass, needle, yarn, through, kind });
    return loops.length - 1;
  };
  const perform = (phrase: string, pass: number): void => {
    const words = phrase.split(' ');
    switch (words[0]) {
      case 'cast': for (const needle of words.slice(3)) on.set(needle, [form(0, needle, [], 'cast-on')]); break;
      case 'yarn': yarn = Number(words[1]); break;
      case 'hold': held.add(words[1]); break;
      case 'work': if (!held.delete(words[1])) throw new Error(`${words[1]} was not held`); break;
      case 'move':
        for (const move of words.slice(1)) {
          const [from, to] = move.split('>'), moved = take(from);
          on.set(to, [...on.get(to) ?? [], ...moved]);
        }
        break;
      case 'wrap': {
        const there = on.get(words[1]);
        if (there === undefined) throw new Error(`a wrap round the empty needle ${words[1]}`);
        there.push(form(pass, words[1], [], 'wrap'));
        break;
      }
      case 'join': for (const pair of words.slice(1)) { const [a, b] = pair.split('+'); form(pass, a, [...take(a), ...take(b)], 'join'); } break;
      case 'bind': {
        let chain: number[] = [];
        for (const needle of words.slice(2)) chain = [form(pass, needle, [...take(needle), ...chain], 'bind-off')];
        break;
      }
      case 'sew': break;
      default: throw new Error(`an unknown phrase: ${phrase}`);
    }
  };
  for (const { kind, stop, from, to, beds, before, after } of stops) {
    const pass = kind === 'closing' ? stop - 1 : stop;
    for (const phrase of before) perform(phrase, pass);
    if (kind === 'pass') {
      const row = [...on.keys()].filter((needle) => beds.includes(needle.startsWith('F') ? 'front' : 'back') && !held.has(needle));
      row.sort((a, b) => (from === 'left' ? 1 : -1) * (numberOf(a) - numberOf(b)));
      for (const needle of row) on.set(needle, [form(pass, needle, take(needle), 'knit')]);
    }
    if (kind !== 'closing') states.push({ working: new Set([...on.keys()].filter((needle) => !held.has(needle))), held: new Set(held) });
    for (const phrase of after) perform(phrase, pass);
    sides.push(`${from}>${to}`);
  }
  return { loops, states, live: on.size, sides };
}

/** An independent reader of comma-separated values as RFC 4180 has them (IETF, 2005, section 2). */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '', isQuoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (isQuoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') { cell += '"'; i++; }
      else isQuoted = false;
    } else if (c === '"') isQuoted = true;
    else if (c === ',') { rows.at(-1)!.push(cell); cell = ''; }
    else if (c === '\r' && text[i + 1] === '\n') continue;
    else if (c === '\n') { rows.at(-1)!.push(cell); cell = ''; rows.push([]); }
    else cell += c;
  }
  return rows.filter((row) => row.length > 0);
}

/** Stops from the rows of a file of passes, the heads in the first row. */
export function stopsOf([heads, ...rows]: readonly (readonly string[])[]): SecondStop[] {
  const phrases = (cell: string): string[] => (cell === '' ? [] : cell.split('; '));
  return rows.map((row) => {
    const at = (head: string): string => row[heads.indexOf(head)];
    return {
      stop: Number(at('stop')), kind: at('kind'), from: at('from'), to: at('to'), beds: at('beds').split('+'),
      knitted: Number(at('knitted')), yarn: Number(at('yarn')), before: phrases(at('before')), after: phrases(at('after')),
    };
  });
}
