import { describe, expect, it } from 'vitest';
import { beginHistory, endGesture, record, redo, undo } from '../../src/main/history.ts';

describe('undo and redo', () => {
  it('go back and forth over every step, and stop at either end', () => {
    let history = record(record(beginHistory(1), 2, null), 3, null);
    history = undo(history);
    expect(history.present).toBe(2);
    history = undo(history);
    expect(history.present).toBe(1);
    expect(undo(history)).toBe(history);
    history = redo(redo(history));
    expect(history.present).toBe(3);
    expect(redo(history)).toBe(history);
  });

  it('a drag is one step, the next drag on the same control another', () => {
    let history = beginHistory(10);
    for (const value of [11, 12, 13]) history = record(history, value, 'heel');
    history = endGesture(history);
    for (const value of [14, 15]) history = record(history, value, 'heel');
    expect(undo(history).present).toBe(13);
    expect(undo(undo(history)).present).toBe(10);
  });

  it('a change after an undo forgets what was undone, and goes on from there', () => {
    const history = record(undo(record(beginHistory('a'), 'b', null)), 'c', null);
    expect(history.future).toEqual([]);
    expect(undo(history).present).toBe('a');
  });

  it('an undo in the middle of a gesture ends it', () => {
    const history = record(undo(record(record(beginHistory(0), 1, null), 2, 'toe')), 5, 'toe');
    expect(undo(history).present).toBe(1);
  });
});
