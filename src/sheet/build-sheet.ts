import { writeFinish, writeSizes } from './sheet-after.ts';
import { writeCare, writeGlance, writeMaterials, writeSock, writeSwatch } from './sheet-before.ts';
import { createContext } from './sheet-context.ts';
import type { SheetOptions, SheetRecord } from './sheet-context.ts';
import { writeClosing, writeDecreasedToe, writeOther } from './sheet-toe.ts';
import { writeHeel, writeTurnedToe } from './sheet-turning.ts';
import { writeCastOn, writeLeg, writeTube, writeTurn } from './sheet-work.ts';
import type { Sheet } from './sheet.ts';

/** The knitting sheet of a sock: everything that a knitter needs away from the screen, read off the program and its trace. */
export function buildSheet(record: SheetRecord, options: SheetOptions): Sheet {
  const context = createContext(record, options), { told } = context, { plan, foot, trace } = record;
  const parts = [
    writeSock(context), writeMaterials(context), writeSwatch(context), writeCare(context), writeGlance(context),
    writeCastOn(context), writeLeg(context), writeTurn(context), writeTube(context, 'ankle'), writeHeel(context), writeTube(context, 'foot'),
    plan.toeKind === 'decreased' ? writeDecreasedToe(context) : writeTurnedToe(context), writeClosing(context), writeFinish(context), writeOther(context), writeSizes(context),
  ];
  return {
    title: plan.name, subtitle: told.subtitle(foot.side, plan.stitches, trace.passes.length - 1),
    parts: parts.filter((part) => part !== null),
  };
}
