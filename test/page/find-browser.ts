import { execFile } from 'node:child_process';
import { access, mkdir, writeFile } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** A Chromium that answered when asked for its version. */
export interface FoundBrowser {
  readonly executablePath: string;
  /** Set beside the surrounding environment when it is started. */
  readonly env: Readonly<Record<string, string>>;
  readonly version: string;
}

type Candidate = Omit<FoundBrowser, 'version'>;

/**
 * The Chromium that came with `npm ci` (Linux on x64), unpacked into `folder`; else one that is
 * installed. `CHROME_PATH` goes before both.
 * @throws Error that tells what was tried, if none answers.
 */
export async function findBrowser(root: string, folder: string): Promise<FoundBrowser> {
  const tried: string[] = [];
  for await (const candidate of candidates(root, folder, tried)) {
    try {
      const { stdout } = await run(candidate.executablePath, ['--version'], { env: { ...process.env, ...candidate.env }, timeout: 60_000 });
      return { ...candidate, version: stdout.trim() };
    } catch (error) {
      tried.push(`${candidate.executablePath}: ${firstLine(error)}`);
    }
  }
  throw new Error([
    'No Chrome or Chromium for the page tests.',
    'On Linux x64 one comes with `npm ci`; elsewhere install Chrome or Chromium, or set CHROME_PATH to one.',
    ...tried.map((line) => `  tried ${line}`),
  ].join('\n'));
}

async function* candidates(root: string, folder: string, tried: string[]): AsyncGenerator<Candidate> {
  const chosen = process.env['CHROME_PATH'];
  if (chosen !== undefined && chosen !== '') yield { executablePath: chosen, env: {} };
  if (process.platform === 'linux' && process.arch === 'x64') {
    try {
      yield await unpackBundled(root, folder);
    } catch (error) {
      tried.push(`@sparticuz/chromium: ${firstLine(error)}`);
    }
  }
  for (const executablePath of installedPaths()) {
    if (await access(executablePath).then(() => true, () => false)) yield { executablePath, env: {} };
  }
}

/**
 * The package reads its environment when it is imported and unpacks into the temporary folder,
 * so a process of its own does that: nothing of it leaks into the tests.
 */
async function unpackBundled(root: string, folder: string): Promise<Candidate> {
  await mkdir(folder, { recursive: true });
  const script = "const { default: chromium } = await import('@sparticuz/chromium'); process.stdout.write(await chromium.executablePath());";
  const { stdout } = await run(process.execPath, ['--input-type=module', '-e', script], {
    cwd: root,
    env: { ...process.env, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x', TMPDIR: folder },
  });
  const fonts = join(folder, 'fonts');
  // The package's own list of font folders knows other places only.
  await writeFile(join(fonts, 'fonts.conf'), [
    '<?xml version="1.0"?>', '<!DOCTYPE fontconfig SYSTEM "fonts.dtd">', '<fontconfig>',
    `  <dir>${fonts}</dir>`, `  <cachedir>${join(folder, 'fonts-cache')}</cachedir>`, '</fontconfig>', '',
  ].join('\n'));
  const libraries = [join(folder, 'al2023', 'lib'), process.env['LD_LIBRARY_PATH'] ?? ''].filter((path) => path !== '');
  return { executablePath: stdout, env: { LD_LIBRARY_PATH: libraries.join(delimiter), FONTCONFIG_PATH: fonts, HOME: folder } };
}

function installedPaths(): string[] {
  switch (process.platform) {
    case 'darwin':
      return ['Google Chrome', 'Chromium'].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
    case 'win32':
      return ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA']
        .flatMap((name) => process.env[name] ?? [])
        .map((folder) => join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe'));
    default:
      return (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '')
        .flatMap((folder) => ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map((name) => join(folder, name)));
  }
}

function firstLine(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';
}
