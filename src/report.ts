import { createReadStream } from 'node:fs';
import { makeProblem } from './base/make-problem.ts';
import type { Problem } from './base/problem.ts';
import { readReportArgs } from './choose/report-args.ts';
import type { SockReport } from './choose/report-sock.ts';
import { refuseReport, reportOnSock } from './choose/report-sock.ts';
import { MOST_BYTES } from './plan/read-sock.ts';

/** A writer into our standard input is not cut off before this, so that it does not fail itself. */
const MOST_DRAINED = 1_000_000_000;

/** Text of a file or of standard input (`-`); what is beyond the largest sock file is not kept. */
async function readText(path: string): Promise<string> {
  const source: AsyncIterable<Buffer> = path === '-' ? process.stdin : createReadStream(path, { end: MOST_BYTES });
  const kept: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of source) {
    if (bytes <= MOST_BYTES) kept.push(chunk);
    bytes += chunk.length;
    if (bytes > MOST_DRAINED) break;
  }
  return Buffer.concat(kept).toString('utf8');
}

function describeUnreadable(path: string, error: unknown, field: string | null): Problem {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
  const message = code === 'ENOENT' ? 'There is no such file.'
    : code === 'EISDIR' ? 'This is a folder, not a sock file.'
    : `The file cannot be read (${code}).`;
  return makeProblem(field, path, 'a sock file (JSON) that can be read', field === null ? message : `${path}: ${message}`);
}

/** The texts of both files, or why one cannot be read. */
async function readTexts(path: string, comparePath: string | null): Promise<{ text: string; other: string | null } | Problem> {
  let field: string | null = null, current = path;
  try {
    const text = await readText(path);
    if (comparePath === null) return { text, other: null };
    [field, current] = ['compare', comparePath];
    return { text, other: await readText(comparePath) };
  } catch (error) {
    return describeUnreadable(current, error, field);
  }
}

async function report(args: readonly string[]): Promise<{ json: SockReport; exitCode: 0 | 1 | 2 }> {
  const { path, comparePath, problems, ...asked } = readReportArgs(args);
  if (path === null || problems.length > 0) return { json: refuseReport(problems), exitCode: 2 };
  const texts = await readTexts(path, comparePath);
  if ('message' in texts) return { json: refuseReport([texts]), exitCode: 2 };
  const { text, other } = texts;
  try {
    const compare = other === null || comparePath === null ? null : { name: comparePath, text: other };
    return reportOnSock(text, { ...asked, compare }, () => performance.now());
  } catch (error) {
    // Our bug: its trace goes to the other stream, so that standard output stays one JSON object.
    console.error(error);
    const message = error instanceof Error ? error.message : String(error);
    return { json: refuseReport([makeProblem(null, undefined, null, `A fault of the program, not of the file: ${message}`)]), exitCode: 1 };
  }
}

const { json, exitCode } = await report(process.argv.slice(2));
process.stdout.write(`${JSON.stringify(json, null, 2)}\n`);
process.exitCode = exitCode;
