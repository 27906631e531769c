import { describe, expect, test } from 'vitest';
import type { Keeper } from '../../src/main/keep.ts';
import { openShelf } from '../../src/main/stand-keep.ts';
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

describe('places that are kept', () => {
  test('come back in the order of the last step, each whole', () => {
    const keeper = storage(), shelf = openShelf(keeper), a = stepOn(beginPlace('a', SOCK), 90, NOON), b = withNote(stepOn(beginPlace('b', { ...SOCK, name: 'B' }), 90, NOON), 7, 'Weigh');
    expect([shelf.put(a), shelf.put(b), shelf.put(stepOn(a, 90, NOON))]).toEqual([true, true, true]);
    expect(openShelf(keeper).places).toEqual([stepOn(a, 90, NOON), b]);
  });

  test('a place that was only looked at is not kept', () => {
    const keeper = storage();
    expect(openShelf(keeper).put(beginPlace('a', SOCK))).toBe(true);
    expect(keeper.kept.size).toBe(0);
  });

  test('a full disk is told, the place goes on, and what was kept before stays', () => {
    const keeper = storage(2), shelf = openShelf(keeper), a = stepOn(beginPlace('a', SOCK), 90, NOON);
    expect(shelf.put(a)).toBe(true);
    expect(shelf.put(stepOn(a, 90, NOON))).toBe(false);
    expect(shelf.places[0]!.stop).toBe(2);
    expect(openShelf(keeper).places[0]!.stop).toBe(1);
  });

  test('a damaged place harms no other, is told, and stays where it is', () => {
    const keeper = storage(), shelf = openShelf(keeper), a = stepOn(beginPlace('a', SOCK), 90, NOON), b = stepOn(beginPlace('b', SOCK), 90, NOON);
    shelf.put(a);
    shelf.put(b);
    keeper.kept.set('stand.a', '{"heelwrightPlace":9}');
    const again = openShelf(keeper);
    expect(again.places).toEqual([b]);
    expect(again.unread).toContain('newer version');
    again.put(stepOn(b, 90, NOON));
    expect(keeper.kept.get('stand.a')).toBe('{"heelwrightPlace":9}');
    expect(openShelf(keeper).unread).toContain('newer version');
  });

  test('another window\'s knitting is not lost; one that is forgotten goes', () => {
    const keeper = storage(), here = openShelf(keeper), there = openShelf(keeper);
    here.put(stepOn(beginPlace('a', SOCK), 90, NOON));
    there.put(stepOn(beginPlace('b', SOCK), 90, NOON));
    here.put(stepOn(stepOn(beginPlace('a', SOCK), 90, NOON), 90, NOON));
    expect(openShelf(keeper).places.map(({ id, stop }) => [id, stop])).toEqual([['a', 2], ['b', 1]]);
    here.forget('a');
    expect(openShelf(keeper).places.map(({ id }) => id)).toEqual(['b']);
  });

  test('choices for the stand fall back one by one', () => {
    expect(readStandSettings('{"voice":true,"light":"purple","forwardKey":"F9","backKey":3}')).toEqual({ voice: true, tone: false, light: 'bright', forwardKey: 'F9', backKey: null });
    for (const text of [null, '', 'null', '7', '{']) expect(readStandSettings(text)).toEqual({ voice: false, tone: false, light: 'bright', forwardKey: null, backKey: null });
  });
});
