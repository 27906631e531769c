import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { measureLaidYarn } from '../../src/pipeline/measure-laid-yarn.ts';
import { LARGE_GLB_BYTES, writeYarnGlb, yarnGlbBytes, type YarnGlbOptions } from '../../src/sheet/write-yarn-glb.ts';
import { TUBE_DETAILS, type TubeDetail } from '../../src/sheet/yarn-tubes.ts';
import { layYarn } from '../../src/yarn/lay-yarn.ts';
import { threadYarn } from '../../src/yarn/thread-yarn.ts';
import { yarnDiameterMm } from '../../src/yarn/yarn-size.ts';
import { knitOrThrow, TEN_THOUSAND } from './bench-socks.ts';
import { printTable } from './table.ts';
import { medianMs } from './timing.ts';

/** Runs a writer to its end; what it yields is let go, as the page lets it go to a Blob. */
function write(lay: Parameters<typeof writeYarnGlb>[0], options: YarnGlbOptions): number {
  const steps = writeYarnGlb(lay, options);
  let bytes = 0;
  for (let step = steps.next(); ; step = steps.next()) {
    bytes += step.value.length;
    if (step.done === true) return bytes;
  }
}

/** The yarn of ten thousand loops laid, measured along its centre lines, and written as tubes. */
export function benchExport(): void {
  const sock = knitOrThrow(TEN_THOUSAND), { plan, grid, fabric } = sock, { positions } = poseSock(sock, 'tube').pose, thread = threadYarn(grid);
  const diameterMm = Float64Array.from(plan.yarns, ({ metresPer100g }) => yarnDiameterMm(metresPer100g)), lay = layYarn({ fabric, grid, thread, diameterMm }, positions);
  const knit = medianMs(() => { knitSock(TEN_THOUSAND); }, 9), weigh = medianMs(() => { measureLaidYarn(sock, positions, 'tube'); }, 5);
  const rows = (Object.keys(TUBE_DETAILS) as TubeDetail[]).map((detail) => {
    const options: YarnGlbOptions = { detail, name: 'Bench', yarns: plan.yarns.map(({ name }) => ({ name, colour: [0.5, 0.5, 0.5] })) };
    const told = yarnGlbBytes(thread, options), made = write(lay, options), tell = medianMs(() => { yarnGlbBytes(thread, options); }, 9), ms = medianMs(() => { write(lay, options); }, 5);
    const most = Math.floor((LARGE_GLB_BYTES / made) * fabric.vertexCount);
    return [
      `${detail}, ${TUBE_DETAILS[detail].segments} x ${TUBE_DETAILS[detail].sides}: ${(made / 1e6).toFixed(1)} MB`, (ms / knit).toFixed(1), ms.toFixed(0),
      `${tell.toFixed(1)} ms, ${(1e6 * (told / made - 1)).toFixed(0)} in a million off; 100 MB at ${most} loops`,
    ];
  });
  printTable([`yarn of ${fabric.vertexCount} loops`, 'over knitting it', 'ms', 'its size told before'], [
    ['knitted', '1.0', knit.toFixed(0), ''], ['laid and measured', (weigh / knit).toFixed(1), weigh.toFixed(0), ''], ...rows,
  ]);
}
