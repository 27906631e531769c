import { expect, test } from 'vitest';
import { perInchToPer10cm, mmToInch } from '../../src/base/unit.ts';
import { countEuler } from '../../src/fabric/check-fabric.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';

/**
 * Source: common practice, no source. At 8 stitches and 10 rows to the inch, 64 stitches, a rib leg
 * of 5 inches, 2 plain rows, 4 ankle passes, the heel of 32 turned down to 10, 98 foot passes, a
 * toe decreased every 4 passes to 10.
 */
test('the common-practice sock, knitted stitch by stitch', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) },
    counts: { stitches: 64, legPasses: 50, anklePasses: 4, footPasses: 98 },
    heel: { turnDownWidth: 10 }, toe: { tipStitches: 10, passesPerDecrease: 4 },
  });
  if (sock === null) throw new Error('the sock is refused');
  expect(sock.plan).toMatchObject({ heelPasses: 44, toePasses: 42 });
  expect(sock.trace).toMatchObject({ wraps: 22, cornerWraps: 2, decreases: 44, loops: 8440 });
  // 32 loops of rib to one bed, 32 turned, 11 decreases of 8.
  expect(sock.trace.transfers).toBe(32 + 32 + 88);
  expect(mmToInch(sock.rest.footLengthMm ?? NaN)).toBeCloseTo(9.2, 2);

  expect(sock.fabric.vertexCount).toBe(8440);
  expect(countEuler(sock.fabric)).toBe(1);
  expect([...sock.fabric.boundaryVertices].sort((a, b) => a - b)).toEqual(Array.from({ length: 64 }, (_, i) => i));
});
