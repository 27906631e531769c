import { describe, expect, test } from 'vitest';
import type { Keeper } from '../../src/main/keep.ts';
import { openShelf } from '../../src/main/stand-keep.ts';
import type { PlaceVault } from '../../src/main/stand-vault.ts';
import { readStandSettings } from '../../src/main/stand-settings.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { beginPlace, stepOn, withNote } from '../../src/sheet/knit-place.ts';

const SOCK: SockFile = { name: 'A', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 32, footPasses: 36 } };
const NOON = '2030-01-02T12:00:00.000Z';

/** A browser's storage that may be full from a given write on. */
function storage(writes = Infinity): Keeper & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>();
  let left = writes;
  return {
    kept, read: (key) => kept.get(key) ?? null,
    write: (key, text) => {
      if (left-- <= 0) return false;
      kept.set(key, text);
      return true;
    },
  };
}

/** A database that keeps everything at once. */
function vaultOf(kept = new Map<string, string>()): PlaceVault & { readonly kept: Map<string, string> } {
  return {
    kept, readAll: () => Promise.resolve([...kept]),
    put: (id, text) => {
      if (text === null) kept.delete(id);
      else kept.set(id, text);
    },
  };
}

describe('places that are kept', () => {
  test('come back in the order of the last step, each whole', () => {
    const keeper = storage(), shelf = openShelf(keeper, vaultOf()), a = stepOn(beginPlace('a', SOCK), 90, NOON), b = withNote(stepOn(beginPlace('b', { ...SOCK, name: 'B' }), 90, NOON), 7, 'Weigh');
    expect([shelf.put(a), shelf.put(b), shelf.put(stepOn(a, 90, NOON))]).toEqual([true, true, true]);
    expect(openShelf(keeper, vaultOf()).places).toEqual([stepOn(a, 90, NOON), b]);
  });

  test('a place that was only looked at is not kept', () => {
    const keeper = storage();
    expect(openShelf(keeper, vaultOf()).put(beginPlace('a', SOCK))).toBe(true);
    expect(keeper.kept.size).toBe(0);
  });

  test('a full disk is told, the place goes on, and what was kept before stays', () => {
    const keeper = storage(2), shelf = openShelf(keeper, vaultOf()), a = stepOn(beginPlace('a', SOCK), 90, NOON);
    expect(shelf.put(a)).toBe(true);
    expect(shelf.put(stepOn(a, 90, NOON))).toBe(false);
    expect(shelf.places[0].stop).toBe(2);
    expect(openShelf(keeper, vaultOf()).places[0].stop).toBe(1);
  });

  test('a damaged place harms no other, is told, and stays where it is', () => {
    const keeper = storage(), shelf = openShelf(keeper, vaultOf()), a = stepOn(beginPlace('a', SOCK), 90, NOON), b = stepOn(beginPlace('b', SOCK), 90, NOON);
    shelf.put(a);
    shelf.put(b);
    keeper.kept.set('stand.a', '{"heelwrightPlace":9}');
    const again = openShelf(keeper, vaultOf());
    expect(again.places).toEqual([b]);
    expect(again.unread).toContain('newer version');
    again.put(stepOn(b, 90, NOON));
    expect(keeper.kept.get('stand.a')).toBe('{"heelwrightPlace":9}');
    expect(openShelf(keeper, vaultOf()).unread).toContain('newer version');
  });

  test('another window\'s knitting is not lost; one that is forgotten goes', () => {
    const keeper = storage(), here = openShelf(keeper, vaultOf()), there = openShelf(keeper, vaultOf());
    here.put(stepOn(beginPlace('a', SOCK), 90, NOON));
    there.put(stepOn(beginPlace('b', SOCK), 90, NOON));
    here.put(stepOn(stepOn(beginPlace('a', SOCK), 90, NOON), 90, NOON));
    expect(openShelf(keeper, vaultOf()).places.map(({ id, stop }) => [id, stop])).toEqual([['a', 2], ['b', 1]]);
    here.forget('a');
    expect(openShelf(keeper, vaultOf()).places.map(({ id }) => id)).toEqual(['b']);
  });

  test('what the vault has of a later step comes back, and nothing else: of an earlier one, or of a place forgotten', async () => {
    const keeper = storage(2), vault = vaultOf(), shelf = openShelf(keeper, vault), a = stepOn(beginPlace('a', SOCK), 90, NOON);
    // Of three steps the browser has written one, the vault all.
    for (const place of [a, stepOn(a, 90, NOON), stepOn(stepOn(a, 90, NOON), 90, NOON)]) shelf.put(place);
    const again = openShelf(keeper, vault);
    expect(again.places[0].stop).toBe(1);
    expect(await again.restore()).toBe(true);
    expect(again.places.map(({ id, stop }) => [id, stop])).toEqual([['a', 3]]);
    expect(await again.restore()).toBe(false);
    // Nothing at all was written: the place is found in the vault alone.
    const bare = openShelf(storage(), vault);
    expect([bare.places.length, await bare.restore(), bare.places[0].stop]).toEqual([0, true, 3]);
    bare.forget('a');
    expect(await openShelf(storage(), vault).restore()).toBe(false);
    // The shelf's copy is later: it stays.
    const old = vaultOf(new Map([['a', JSON.stringify({ ...a, revision: 1 })]])), full = storage();
    const late = openShelf(full, vaultOf());
    for (let i = 0; i < 3; i++) late.put({ ...a, stop: 5 + i });
    const kept = openShelf(full, old);
    expect([await kept.restore(), kept.places[0].stop]).toEqual([false, 7]);
  });

  test('choices for the stand fall back one by one', () => {
    expect(readStandSettings('{"voice":true,"light":"purple","forwardKey":"F9","backKey":3}')).toEqual({ voice: true, tone: false, light: 'bright', forwardKey: 'F9', backKey: null });
    for (const text of [null, '', 'null', '7', '{']) expect(readStandSettings(text)).toEqual({ voice: false, tone: false, light: 'bright', forwardKey: null, backKey: null });
  });
});
