import { describe, expect, it } from 'vitest';
import { readField, writeField } from '../../src/panel/field-path.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const sock: SockFile = {
  gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, heel: { turnDownWidth: 12 },
  yarns: [{ colour: '#111111' }, { colour: '#222222', from: 'toe' }],
};

describe('a field of a sock file', () => {
  it('is read by its path', () => {
    expect(readField(sock, 'heel.turnDownWidth')).toBe(12);
    expect(readField(sock, 'yarns.1.colour')).toBe('#222222');
    expect(readField(sock, 'foot.lengthMm')).toBeUndefined();
    expect(readField(sock, 'yarns.7.colour')).toBeUndefined();
  });

  it('is written into a copy that shares what did not change', () => {
    const next = writeField(sock, 'heel.turnDownWidth', 8);
    expect(next.heel).toEqual({ turnDownWidth: 8 });
    expect(sock.heel).toEqual({ turnDownWidth: 12 });
    expect(next.gauge).toBe(sock.gauge);
    expect(next.yarns).toBe(sock.yarns);
  });

  it('of a list changes that entry and leaves a list', () => {
    const next = writeField(sock, 'yarns.0.name', 'Oat');
    expect(Array.isArray(next.yarns)).toBe(true);
    expect(next.yarns).toEqual([{ colour: '#111111', name: 'Oat' }, { colour: '#222222', from: 'toe' }]);
  });

  it('makes the group it needs, and takes an emptied group away', () => {
    expect(writeField(sock, 'foot.lengthMm', 255).foot).toEqual({ lengthMm: 255 });
    expect('heel' in writeField(sock, 'heel.turnDownWidth', undefined)).toBe(false);
  });

  it('keeps its place among the others, so that a saved file stays in order', () => {
    expect(Object.keys(writeField(sock, 'gauge.rowsPer10cm', 40).gauge)).toEqual(['stitchesPer10cm', 'rowsPer10cm']);
  });
});
