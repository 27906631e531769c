import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}

const textOf = (path: string): string => readFileSync(path, 'utf8');
const json = (name: string): Record<string, unknown> => JSON.parse(textOf(join(root, name))) as Record<string, unknown>;

describe('the house', () => {
  const ours = [...filesUnder('src'), ...filesUnder('shaders')];

  it('files are kebab-case; shared shader parts start with an underscore', () => {
    const names = [...ours, ...filesUnder('test').filter((path) => path.endsWith('.ts'))].map((path) => basename(path));
    expect(names.length).toBeGreaterThan(50);
    expect(names.filter((name) => !/^_?[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+)+$/.test(name))).toEqual([]);
  });

  it('no shader or style sheet is longer than 400 lines (lint holds the rest)', () => {
    const long = ours.filter((path) => /\.(glsl|css)$/.test(path) && textOf(path).split('\n').length > 401);
    expect(long).toEqual([]);
  });

  it('nothing in src or shaders is left for later', () => {
    // In pieces, so that this file does not say them.
    const words = new RegExp(['TO' + 'DO', 'FIX' + 'ME', 'st' + 'ub', 'place' + 'holder(?!:)'].map((word) => `\\b${word}`).join('|'), 'i');
    expect(ours.filter((path) => words.test(textOf(path)))).toEqual([]);
  });

  it('rooms have no rooms inside: the lint rules read one folder', () => {
    const rooms = readdirSync(join(root, 'src'), { withFileTypes: true }).filter((entry) => entry.isDirectory());
    const inner = rooms.flatMap((room) => readdirSync(join(root, 'src', room.name), { withFileTypes: true })
      .filter((entry) => entry.isDirectory()).map((entry) => `${room.name}/${entry.name}`));
    expect(inner).toEqual([]);
  });

  it('every package is pinned to one version', () => {
    const { dependencies, devDependencies } = json('package.json') as Record<string, Record<string, string>>;
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it('the page asks nothing of another host', () => {
    const pages = ['index.html'].map((name) => join(root, name)).concat(ours.filter((path) => /\.(css|html)$/.test(path)));
    for (const path of pages) expect(textOf(path), path).not.toMatch(/(?:src|href)\s*=\s*["'](?:https?:)?\/\/|(?:url\(|@import)\s*["']?(?:https?:)?\/\//);
  });
});
