import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import type { PoseName } from '../shape/pose.ts';

export interface ReportArgs {
  /** `-` is standard input; null when the line names none, which is a problem. */
  readonly path: string | null;
  readonly poses: readonly PoseName[];
  readonly wantsAdvice: boolean;
  readonly wantsGrade: boolean;
  /** Another sock to compare with; null for none. */
  readonly comparePath: string | null;
  readonly problems: readonly Problem[];
}

const ALL_POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];
const USUAL_POSES: readonly PoseName[] = ['flat', 'tube'];
const USAGE = 'SOCK.json (or -), and --poses flat,tube,beds,worn or --poses none, --advice, --grade, --compare OTHER.json';

const isPose = (name: string): name is PoseName => (ALL_POSES as readonly string[]).includes(name);

/** Poses of a list such as `flat,tube`, each once; words where a name is none. */
function readPoses(text: string): readonly PoseName[] | string {
  if (text === 'none') return [];
  const names = [...new Set(text.split(',').map((name) => name.trim()))];
  return names.every(isPose) ? names : 'The option --poses names no pose that there is.';
}

/** An option and its value: `--poses flat` as well as `--poses=flat`; the value is null where none follows. */
interface Word { readonly option: string | null; readonly value: string | null }

const WITH_VALUE = ['--poses', '--compare'];
const ALONE = ['--advice', '--grade'];

function* readWords(args: readonly string[]): Generator<Word> {
  for (let i = 0; i < args.length; i++) {
    const [name] = args[i].split('=', 1);
    if (!WITH_VALUE.includes(name)) yield args[i] === '-' || !args[i].startsWith('-') ? { option: null, value: args[i] } : { option: args[i], value: null };
    else if (name === args[i]) yield { option: name, value: args.at(++i) ?? null };
    else yield { option: name, value: args[i].slice(name.length + 1) };
  }
}

/** Reads the words after the command's name. Never throws: what is wrong comes back as problems. */
export function readReportArgs(args: readonly string[]): ReportArgs {
  const problems: Problem[] = [], paths: string[] = [], asked = new Set<string>(), compared: string[] = [];
  let poses = USUAL_POSES, hasPoses = false;
  const refuse = (value: unknown, allowed: string, message: string): void => { problems.push(makeProblem(null, value ?? undefined, allowed, message)); };
  for (const { option, value } of readWords(args)) {
    if (option === null) paths.push(value ?? '');
    else if (option === '--poses') {
      const told = hasPoses ? 'The option --poses is given twice.' : readPoses(value ?? '');
      if (typeof told === 'string') refuse(value, '--poses once, with any of flat, tube, beds and worn, commas between, or none', told);
      else poses = told;
      hasPoses = true;
    } else if (option === '--compare') {
      if (value === null || value === '' || value.startsWith('--') || compared.length > 0) refuse(value, '--compare OTHER.json, once', 'The option --compare wants one sock file to compare with.');
      else compared.push(value);
    } else if (ALONE.includes(option)) asked.add(option);
    else refuse(option, USAGE, 'The command has no such option.');
  }
  if (paths.length === 0) refuse(null, USAGE, 'No sock file is named.');
  else if (paths.length > 1) refuse(paths, USAGE, 'More than one sock file is named.');
  else if (paths[0] === '-' && compared[0] === '-') refuse('-', '- once', 'Standard input holds one sock, not two.');
  return { path: paths[0] ?? null, poses, wantsAdvice: asked.has('--advice'), wantsGrade: asked.has('--grade'), comparePath: compared[0] ?? null, problems };
}
