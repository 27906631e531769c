import { describe, expect, it } from 'vitest';
import { createKeeper } from '../../src/main/keep.ts';
import { createSockShelf } from '../../src/main/sock-shelf.ts';
import type { SockShelf } from '../../src/main/sock-shelf.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { createStorage } from './storage.ts';

const SOCK: SockFile = { heelwright: 1, name: 'A', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 32, footPasses: 36 } };
const named = (name: string): SockFile => ({ ...SOCK, name });

let clock = 0, letters = 0;
const openShelf = (storage: () => Storage): SockShelf => createSockShelf(createKeeper(storage), () => `id${letters++}`, () => clock++);
const names = (shelf: SockShelf): (string | undefined)[] => shelf.list().filter(({ deleted }) => deleted === null).map(({ file }) => file?.name);

describe('socks on the shelf', () => {
  it('are there at the next visit, the last changed first', () => {
    const kept = new Map<string, string>(), shelf = openShelf(() => createStorage(kept));
    const a = shelf.put(shelf.newId(), named('A'));
    shelf.put(shelf.newId(), named('B'));
    shelf.put(a, named('A again'));
    const next = openShelf(() => createStorage(kept));
    expect(names(next)).toEqual(['A again', 'B']);
    expect(next.get(a)?.file).toEqual(named('A again'));
    expect(next.trouble()).toBeNull();
    expect(next.find(named('B'))?.file?.name).toBe('B');
  });

  it('that are deleted come back, and the oldest of many go', () => {
    const kept = new Map<string, string>(), shelf = openShelf(() => createStorage(kept));
    const ids = Array.from({ length: 24 }, (_, i) => shelf.put(shelf.newId(), named(`sock ${i}`)));
    for (const id of ids) shelf.setDeleted(id, true);
    expect(names(shelf)).toEqual([]);
    const next = openShelf(() => createStorage(kept));
    expect(next.list().length).toBe(20);
    expect(next.get(ids[3])).toBeNull();
    next.setDeleted(ids[4], false);
    expect(names(next)).toEqual(['sock 4']);
    next.forget(ids[4]);
    expect(names(next), 'only what was deleted can be let go').toEqual(['sock 4']);
    next.forget(ids[5]);
    expect(openShelf(() => createStorage(kept)).list().length).toBe(19);
  });

  it('that cannot be read are kept as they stand', () => {
    const kept = new Map([['heelwright.socks.x', '{"stamp":"q","changed":5,"file":{"gauge":3}}'], ['heelwright.socks.y', 'not JSON'], ['heelwright.socks.z', '{"stamp":"q","file":{"heelwright":2,"lace":true}}'], ['other', 'no sock']]);
    const shelf = openShelf(() => createStorage(kept));
    expect(shelf.list().map(({ id, file, problems }) => [id, file, problems.length > 0])).toEqual([['x', null, true], ['y', null, true], ['z', null, true]]);
    expect(shelf.get('y')?.text).toBe('not JSON');
    expect(JSON.parse(shelf.get('z')!.text)).toEqual({ heelwright: 2, lace: true });
    shelf.setDeleted('y', true);
    shelf.setDeleted('y', false);
    expect(openShelf(() => createStorage(kept)).get('y')?.text).toBe('not JSON');
  });
});

describe('two windows', () => {
  it('that keep different socks see each other\'s', () => {
    const kept = new Map<string, string>(), one = openShelf(() => createStorage(kept)), two = openShelf(() => createStorage(kept));
    one.put(one.newId(), named('one'));
    two.put(two.newId(), named('two'));
    one.refresh();
    expect(names(one)).toEqual(['two', 'one']);
    expect(names(openShelf(() => createStorage(kept)))).toEqual(['two', 'one']);
  });

  it('that change the same sock end with both', () => {
    const kept = new Map<string, string>(), first = openShelf(() => createStorage(kept));
    const id = first.put(first.newId(), named('as it was'));
    const one = openShelf(() => createStorage(kept)), two = openShelf(() => createStorage(kept));
    expect(one.put(id, named('by one'))).toBe(id);
    const other = two.put(id, named('by two'));
    expect(other).not.toBe(id);
    expect(names(two).sort()).toEqual(['by one', 'by two']);
    // From then on each has its own.
    expect([one.put(id, named('by one, again')), two.put(other, named('by two, again'))]).toEqual([id, other]);
    expect(names(openShelf(() => createStorage(kept))).sort()).toEqual(['by one, again', 'by two, again']);
  });

  it('one of which looks at the list before it changes its own does not write over the other', () => {
    const kept = new Map<string, string>(), one = openShelf(() => createStorage(kept)), id = one.put(one.newId(), named('as it was'));
    const two = openShelf(() => createStorage(kept));
    two.take(id);
    one.put(id, named('by one'));
    two.refresh();
    expect(two.put(id, named('by two'))).not.toBe(id);
    expect(names(one).concat(names(two)).includes('by one')).toBe(true);
    // Taken anew, it is gone on with.
    two.take(id);
    expect(two.put(id, named('by two, from one'))).toBe(id);
    expect(names(openShelf(() => createStorage(kept))).sort()).toEqual(['by two', 'by two, from one']);
  });

  it('one of which deletes what the other has changed loses nothing', () => {
    const kept = new Map<string, string>(), one = openShelf(() => createStorage(kept)), id = one.put(one.newId(), named('old'));
    const two = openShelf(() => createStorage(kept));
    one.put(id, named('new'));
    two.setDeleted(id, true);
    two.setDeleted(id, false);
    expect(names(openShelf(() => createStorage(kept)))).toEqual(['new']);
  });
});

describe('a disk that is full', () => {
  it('keeps what it has; the rest goes on in this window, and is kept as soon as there is room', () => {
    const kept = new Map<string, string>(), room = { letters: Infinity }, shelf = openShelf(() => createStorage(kept, room));
    const a = shelf.put(shelf.newId(), named('A')), b = shelf.put(shelf.newId(), named('B'));
    room.letters = 0;
    shelf.put(a, named('A, longer than it was'));
    shelf.put(shelf.newId(), named('C'));
    expect(shelf.trouble()).toBe('full');
    expect(shelf.list().map(({ file, isKept }) => [file?.name, isKept])).toEqual([['C', false], ['A, longer than it was', false], ['B', true]]);
    expect(names(openShelf(() => createStorage(kept)))).toEqual(['B', 'A']);
    // Deleting makes room even here, and what was deleted waits in this window.
    shelf.setDeleted(b, true);
    expect([...kept.keys()]).toEqual([`heelwright.socks.${a}`]);
    expect(shelf.get(b)?.deleted).not.toBeNull();
    room.letters = Infinity;
    shelf.put(a, named('A once more'));
    expect(shelf.trouble()).toBeNull();
    expect(names(openShelf(() => createStorage(kept)))).toEqual(['A once more', 'C']);
    shelf.setDeleted(b, false);
    expect(names(openShelf(() => createStorage(kept)))).toContain('B');
  });
});

it('storage that is switched off leaves a list for this window', () => {
  const shelf = openShelf(() => { throw new DOMException('no', 'SecurityError'); });
  const id = shelf.put(shelf.newId(), named('A'));
  shelf.put(id, named('A, changed'));
  expect(names(shelf)).toEqual(['A, changed']);
  expect(shelf.trouble()).toBe('off');
  shelf.refresh();
  expect(shelf.get(id)?.isKept).toBe(false);
});
