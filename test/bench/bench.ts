import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { benchPage } from './page-bench.ts';
import { benchPipeline } from './knit-bench.ts';

// An interrupted bench ends in order, so that its temporary folder goes with it.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(1));

const wantsAll = process.argv.includes('--all');
const wants = (part: string): boolean => wantsAll || process.argv.includes(part) || process.argv.length === 2;

console.log(`Node ${process.versions.node}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}. Ratios are of one run on one machine; nothing is asserted.`);
if (wants('pipeline')) benchPipeline(wantsAll);
if (wants('page')) await benchPage(fileURLToPath(new URL('../..', import.meta.url)));
