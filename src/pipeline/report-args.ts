import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import type { PoseName } from '../shape/pose.ts';

export interface ReportArgs {
  /** `-` is standard input; null when the line names none, which is a problem. */
  readonly path: string | null;
  readonly poses: readonly PoseName[];
  readonly problems: readonly Problem[];
}

const ALL_POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];
const USUAL_POSES: readonly PoseName[] = ['flat', 'tube'];
const USAGE = 'SOCK.json (or -), and --poses flat,tube,beds,worn or --poses none';

const isPose = (name: string): name is PoseName => (ALL_POSES as readonly string[]).includes(name);

/** Poses of a list such as `flat,tube`, each once; null when a name is none. */
function readPoses(text: string): readonly PoseName[] | null {
  if (text === 'none') return [];
  const names = [...new Set(text.split(',').map((name) => name.trim()))];
  return names.every(isPose) ? names : null;
}

/** Reads the words after the command's name. Never throws: what is wrong comes back as problems. */
export function readReportArgs(args: readonly string[]): ReportArgs {
  const problems: Problem[] = [];
  const paths: string[] = [];
  let poses = USUAL_POSES;
  const rest = [...args];
  for (let word = rest.shift(); word !== undefined; word = rest.shift()) {
    const isPoses = word === '--poses' || word.startsWith('--poses=');
    if (isPoses) {
      const text = word === '--poses' ? rest.shift() : word.slice('--poses='.length);
      const read = readPoses(text ?? '');
      if (read === null) problems.push(makeProblem(null, text, '--poses with any of flat, tube, beds and worn, commas between, or none', 'The option --poses names no pose that there is.'));
      else poses = read;
    } else if (word !== '-' && word.startsWith('-')) {
      problems.push(makeProblem(null, word, USAGE, 'The command has no such option.'));
    } else {
      paths.push(word);
    }
  }
  if (paths.length !== 1) {
    problems.push(makeProblem(null, paths.length === 0 ? undefined : paths, USAGE,
      paths.length === 0 ? 'No sock file is named.' : 'More than one sock file is named.'));
  }
  return { path: paths[0] ?? null, poses, problems };
}
