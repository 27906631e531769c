import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { benchChart } from './chart-bench.ts';
import { benchChoose } from './choose-bench.ts';
import { benchEdits } from './edit-bench.ts';
import { benchExport } from './export-bench.ts';
import { benchFoot } from './foot-bench.ts';
import { benchPipeline } from './knit-bench.ts';
import { benchMembrane } from './membrane-bench.ts';
import { benchPage } from './page-bench.ts';
import { benchPassesRoom } from './passes-bench.ts';
import { benchScale } from './scale-bench.ts';
import { benchSolvers } from './solver-bench.ts';
import { benchSplit } from './split-bench.ts';
import { benchTimeline } from './timeline-bench.ts';
import { benchWorn } from './worn-bench.ts';
import { benchYarn } from './yarn-bench.ts';

// An interrupted bench ends in order, so that its temporary folder goes with it.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(1));

const wantsAll = process.argv.includes('--all');
const named = process.argv.slice(2).filter((word) => word !== '--all');
/** `shape` stands for all parts about the relaxed shape. */
const wants = (part: string, group?: string): boolean => named.length === 0 || named.includes(part) || (group !== undefined && named.includes(group));

console.log(`Node ${process.versions.node}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}. Ratios are of one run on one machine; nothing is asserted.`);
if (wants('foot')) benchFoot();
if (wants('pipeline')) benchPipeline();
if (wants('export')) benchExport();
if (wants('choose')) benchChoose();
if (wants('edits', 'shape')) benchEdits(wantsAll);
if (wants('worn', 'shape')) benchWorn();
if (wants('split', 'shape')) benchSplit();
if (wants('scale', 'shape')) benchScale(wantsAll);
if (wants('membrane', 'shape')) benchMembrane();
if (wants('solvers', 'shape')) await benchSolvers();
if (wants('timeline')) await benchTimeline(fileURLToPath(new URL('../..', import.meta.url)));
if (wants('page')) await benchPage(fileURLToPath(new URL('../..', import.meta.url)));
if (wants('chart')) await benchChart(fileURLToPath(new URL('../..', import.meta.url)));
if (wants('passes', 'page')) await benchPassesRoom(fileURLToPath(new URL('../..', import.meta.url)));
if (wants('yarn')) await benchYarn(fileURLToPath(new URL('../..', import.meta.url)), wantsAll);
