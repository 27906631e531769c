import { describe, expect, it, test } from 'vitest';
import { BED, LOOP, SECTION } from '../../src/machine/codes.ts';
import type { StitchGrid } from '../../src/machine/grid.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { Plan } from '../../src/plan/plan-types.ts';
import type { Program, Step } from '../../src/plan/step.ts';
import { CHART_MARK } from '../../src/sheet/chart-marks.ts';
import type { ChartMark } from '../../src/sheet/chart-marks.ts';
import type { ChartModel } from '../../src/sheet/chart-model.ts';
import { layChart } from '../../src/sheet/lay-chart.ts';
import type { ChartRecord } from '../../src/sheet/lay-chart.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';
import { drawChartText } from './draw-chart-text.ts';

const SOCKS: ChartRecord[] = randomPlans(41, 120).map((plan) => ({ plan, ...knitPlan(plan) }));
const nameOf = ({ stitches, legKind, toeKind, heelStitches, bedStitches, turnDownWidth }: Plan): string =>
  `${stitches} ${legKind} ${toeKind}${heelStitches > bedStitches ? ' wide heel' : ''} W ${turnDownWidth}`;

const countMark = (chart: ChartModel, mark: ChartMark): number => chart.marks.reduce((sum, bits) => sum + ((bits & CHART_MARK[mark]) === 0 ? 0 : 1), 0);
const isStitch = (grid: StitchGrid, loop: number): boolean => grid.kind[loop] <= LOOP.knit;
const steps = <K extends Step['do']>(program: Program, kind: K): Extract<Step, { do: K }>[] => program.steps.filter((step): step is Extract<Step, { do: K }> => step.do === kind);

test('the random socks are of every kind that a chart has to lay out', () => {
  const plans = SOCKS.map(({ plan }) => plan), kinds = new Set(plans.map((p) => `${p.legKind} ${p.toeKind} ${p.heelBed} ${p.closing}`));
  expect(kinds.size).toBe(12);
  expect(plans.filter((p) => p.heelStitches > p.bedStitches).length).toBeGreaterThan(10);
});

describe.each(['beds', 'seam'] as const)('the whole sock, cut %s', (cut) => {
  const charts = SOCKS.map((sock) => ({ ...sock, chart: layChart(sock, 'sock', cut) }));

  it('every loop has one cell of its own, a wrap that of its loop', () => {
    for (const { grid, chart, plan } of charts) {
      const loops = [...chart.loop], places = new Set(loops.map((_, cell) => `${chart.column[cell]} ${chart.row[cell]}`));
      const stitches = Array.from({ length: grid.loopCount }, (_, loop) => loop).filter((loop) => grid.kind[loop] !== LOOP.wrap);
      expect(loops, nameOf(plan)).toEqual(stitches);
      expect(places.size, nameOf(plan)).toBe(loops.length);
      expect(Math.max(...chart.column)).toBe(plan.stitches - 1);
      const owner = Int32Array.from(grid.kind, (kind, loop) => (kind === LOOP.wrap ? grid.wrapHost[loop] : loop));
      expect([...owner].filter((loop, at) => chart.loop[chart.cellOfLoop[at]] !== loop), nameOf(plan)).toEqual([]);
    }
  });

  it('each pass has as many cells as it knitted, all in one row, and its number at one margin', () => {
    for (const { grid, chart, trace } of charts) {
      expect(chart.passes.map(({ pass }) => pass)).toEqual(trace.passes.map(({ pass }) => pass));
      const cells = trace.passes.map((): number[] => []);
      chart.loop.forEach((loop, cell) => { if (isStitch(grid, loop)) cells[grid.pass[loop]].push(cell); });
      for (const { pass, knitted } of trace.passes) {
        expect(cells[pass].length).toBe(knitted);
        expect(new Set(cells[pass].map((cell) => chart.row[cell]))).toEqual(new Set([chart.passes[pass].row]));
      }
      // At a margin no two passes are numbered in one row.
      expect(new Set(chart.passes.map(({ margin, row }) => `${margin} ${row}`)).size).toBe(chart.passes.length);
    }
  });

  // Stated cuts: the chart's sides; between the beds, where a round is a step up from the one before and a decreased toe gapes; the seam, which is sewn; the closing of a ring cast on.
  it('neighbours along the course are neighbours on the chart', () => {
    for (const { grid, chart, plan } of charts) {
      const wrong: number[] = [], sewn = new Set([...grid.seamPairs, ...grid.ringPair]);
      chart.loop.forEach((loop, cell) => {
        const right = grid.rightOf[loop];
        if (right >= 0) {
          const beside = chart.cellOfLoop[right], across = (chart.column[beside] - chart.column[cell] + plan.stitches) % plan.stitches, up = chart.row[beside] - chart.row[cell];
          if (grid.pass[right] === grid.pass[loop] ? across !== 1 || up !== 0 : Math.abs(up) > 1) wrong.push(loop);
        }
        const column = chart.column[cell] + 1, next = column === chart.columnCount ? -1 : chart.cellAt[chart.row[cell] * chart.columnCount + column];
        if (next < 0 || !isStitch(grid, loop) || chart.pass[next] !== chart.pass[cell] || (sewn.has(loop) && sewn.has(chart.loop[next]))) return;
        if (right !== chart.loop[next]) wrong.push(loop);
      });
      expect(wrong, nameOf(plan)).toEqual([]);
    }
  });

  it('a loop stands over the one it was drawn through, or beside it by the needles it was moved, with a thread', () => {
    for (const { grid, chart, plan } of charts) {
      const threads = new Map(chart.threads.map(({ from, to }) => [from, to])), wrong: string[] = [];
      chart.loop.forEach((loop, cell) => {
        const child = grid.child[loop];
        if (child < 0 || grid.kind[child] !== LOOP.knit) return;
        const over = chart.cellOfLoop[child], across = chart.column[over] - chart.column[cell], up = chart.row[over] - chart.row[cell];
        const moved = (grid.needle[child] - grid.needle[loop]) * (grid.bed[loop] === 0 ? 1 : -1);
        // A flat leg's loops change beds as it is gathered and turned, and stay in their wales; a wide heel's end stitches too.
        const isAcross = grid.bed[child] !== grid.bed[loop] || grid.isRib[loop] === 1 || grid.pass[loop] <= plan.legPasses;
        if (up < 1 || !(isAcross ? [0, -1, 1] : [moved]).some((by) => (across - by) % plan.stitches === 0)) wrong.push(`loop ${loop}: ${across} across, ${up} up`);
        if ((up > 1 || across !== 0) && Math.abs(across) <= 1 && threads.get(cell) !== over) wrong.push(`loop ${loop}: no thread`);
      });
      expect(wrong, nameOf(plan)).toEqual([]);
    }
  });

  it('marks are as many as the program makes', () => {
    for (const { chart, program, trace, grid, plan } of charts) {
      const moved = (why: string): number => steps(program, 'transfer').filter((step) => step.why === why).reduce((sum, { moves }) => sum + moves.length, 0);
      const wraps = steps(program, 'wrap').length, corners = countMark(chart, 'cornerLeft') + countMark(chart, 'cornerRight');
      expect([countMark(chart, 'wrap'), corners]).toEqual([trace.wraps, trace.cornerWraps]);
      expect(countMark(chart, 'wrap') + corners).toBe(wraps);
      expect(countMark(chart, 'held')).toBe(steps(program, 'hold').length);
      expect([countMark(chart, 'gather'), countMark(chart, 'turn'), countMark(chart, 'heelShift'), countMark(chart, 'moved')]).toEqual([moved('gather'), moved('turn'), moved('heel'), moved('join')]);
      expect(countMark(chart, 'decreaseLeft') + countMark(chart, 'decreaseRight')).toBe(trace.decreases);
      // Both ends alike, but for decreases on the little toe's side only.
      const slanted = plan.toeSteps.filter(({ ends }) => ends === 'outer').length;
      expect(Math.abs(countMark(chart, 'decreaseLeft') - countMark(chart, 'decreaseRight'))).toBeLessThanOrEqual(2 * slanted);
      // Two loops move at each end that is decreased, and each has a slanting thread, unless it goes round the cut; no other has.
      const roundTheCut = [...chart.loop].filter((loop, cell) => grid.child[loop] >= 0 && grid.kind[grid.child[loop]] === LOOP.knit
        && Math.abs(chart.column[chart.cellOfLoop[grid.child[loop]]] - chart.column[cell]) === plan.stitches - 1);
      expect(chart.threads.filter(({ kind }) => kind === 'taken').length + roundTheCut.length, nameOf(plan)).toBe(moved('decrease'));
      expect(countMark(chart, 'castOn')).toBe(plan.stitches);
      expect(countMark(chart, 'seamLeft') + countMark(chart, 'seamRight')).toBe(grid.seamPairs.length);
      expect(countMark(chart, plan.closing === 'graft' ? 'graft' : 'bindOff')).toBe(plan.toeKind === 'short-row' ? plan.bedStitches : plan.toeTipStitches);
      // Half the loops of a flat leg show their purl side; a tube has no rib.
      expect([countMark(chart, 'purl'), countMark(chart, 'ribKnit')]).toEqual(Array(2).fill(plan.legKind === 'tube' ? 0 : (plan.legPasses * plan.stitches) / 2));
    }
  });

  it('needles over the cells are those on which they were knitted', () => {
    for (const { chart, grid, plan } of charts) {
      const wrong: number[] = [];
      const head = new Map(chart.needles.filter(({ edge }) => edge === 'head').map((at) => [at.column, at]));
      const foot = new Map(chart.needles.filter(({ edge }) => edge === 'foot').map((at) => [at.column, at]));
      chart.loop.forEach((loop, cell) => {
        const isFoot = plan.legKind === 'flat-rib' && grid.pass[loop] <= plan.legPasses + plan.plainPasses, at = (isFoot ? foot : head).get(chart.column[cell])!;
        const isWideHeel = plan.heelStitches > plan.bedStitches && grid.bed[loop] !== at.bed;
        if (isStitch(grid, loop) && !isWideHeel && at.needle !== grid.needle[loop]) wrong.push(loop);
      });
      expect(wrong, nameOf(plan)).toEqual([]);
    }
  });
});

describe('the heel alone', () => {
  const charts = SOCKS.map((sock) => ({ ...sock, chart: layChart(sock, 'heel', 'beds') }));

  // H - 1 ... W, the plateau, W + 1 ... H (DESIGN: common practice, no source).
  it('has the rows of the closed form, between the row it begins on and the one it ends under', () => {
    for (const { chart, plan } of charts) {
      const { heelStitches: h, turnDownWidth: w, plateauPasses } = plan, widths = new Array<number>(chart.rowCount).fill(0);
      for (let cell = 0; cell < chart.cellCount; cell++) if (chart.isBeside[cell] === 0) widths[chart.row[cell]]++;
      const wanted = [...Array.from({ length: h - w }, (_, i) => h - 1 - i), ...new Array<number>(plateauPasses).fill(w), ...Array.from({ length: h - w }, (_, i) => w + 1 + i)];
      expect(widths.filter((width) => width > 0), nameOf(plan)).toEqual(wanted);
    }
  });

  it('the wedge is open: a held loop has a thread to its next row, as long as it waits', () => {
    for (const { chart, plan, grid } of charts) {
      const n = plan.heelStitches - plan.turnDownWidth, held = chart.threads.filter(({ kind }) => kind === 'held');
      expect(held.length).toBe(n);
      // Needle k waits from pass k - 1 of the turning down; back they come by pairs, the last pair first, in the pair as they went (worked out by hand).
      const waits = held.map(({ from, to }) => grid.pass[chart.loop[to]] - grid.pass[chart.loop[from]]).sort((a, b) => b - a);
      expect(waits, nameOf(plan)).toEqual(Array.from({ length: n }, (_, i) => 2 * n + plan.plateauPasses - 1 - 4 * Math.floor(i / 2)));
      for (const { from, to } of held) expect(chart.column[from]).toBe(chart.column[to]);
    }
  });

  it('shows its wraps, corners and heel needles, and no other bed but at its ends', () => {
    for (const { chart, plan } of charts) {
      expect(countMark(chart, 'wrap')).toBe(plan.heelWraps ? plan.heelStitches - plan.turnDownWidth : 0);
      expect([countMark(chart, 'cornerLeft'), countMark(chart, 'cornerRight')]).toEqual([1, 1]);
      expect(chart.columnCount).toBe(plan.heelStitches + 2);
      expect(chart.needles.filter(({ edge }) => edge === 'foot').length).toBe(plan.heelStitches);
    }
  });
});

test('the toe alone: beds that shrink by the closed form, or short rows as in the heel', () => {
  for (const sock of SOCKS) {
    const chart = layChart(sock, 'toe', 'beds'), { plan, grid } = sock;
    const widths = new Map<number, number>();
    for (let cell = 0; cell < chart.cellCount; cell++) if (chart.isBeside[cell] === 0 && isStitch(grid, chart.loop[cell])) widths.set(chart.pass[cell], (widths.get(chart.pass[cell]) ?? 0) + 1);
    const wanted: number[] = [];
    let left = plan.bedStitches;
    // N / 2 - 2 i after i decreases at both ends; one stitch a bed less for one end.
    for (const { ends, passes } of plan.toeSteps) wanted.push(...new Array<number>(passes).fill(left -= ends === 'both' ? 2 : 1));
    const tip = plan.toeTipStitches, turns = plan.bedStitches - tip;
    if (plan.toeKind === 'short-row') for (let i = 0; i < 2 * turns; i++) wanted.push(i < turns ? plan.bedStitches - 1 - i : tip + 1 + i - turns);
    expect([...widths.values()], nameOf(plan)).toEqual(wanted);
    expect(countMark(chart, plan.closing === 'graft' ? 'graft' : 'bindOff'), nameOf(plan)).toBe(plan.toeKind === 'short-row' ? plan.bedStitches : tip);
  }
});

test('a heel on 12 stitches turned down to 6, as it is read', () => {
  const { sock } = knitSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 24, legPasses: 4, footPasses: 6 }, heel: { turnDownWidth: 6, plateauPasses: 2 } });
  expect(`\n${drawChartText(layChart(sock!, 'heel', 'beds'))}`).toMatchInlineSnapshot(`
    "
      26<  ,,,,,,,,,,,,
      24<  ............
      23>  |...........
      22<  |..........|
      21>  ||.........|
      20<  ||........||
      19>  |||.......||
      18<  |||......|||
      17>  |||......|||
      16<  |||......|||
      15>  ||o......|||
      14<  ||.......o||
      13>  |o........||
      12<  |.........o|
      11>  o..........|
      10< 7,,,,,,,,,,,or"
  `);
});

test('a whole small sock, its leg gathered on the back bed and its heel on the front, as it is read', () => {
  const { sock } = knitSock({
    gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 16, legPasses: 2, footPasses: 4 }, heel: { turnDownWidth: 4 }, toe: { tipStitches: 4 },
  });
  expect(`\n${drawChartText(layChart(sock!, 'sock', 'beds'))}`).toMatchInlineSnapshot(`
    "
                    xxxx
      26<   vvvv    vvvv   25>
      24<  ......  ......  23>
      22<  .>..<.  .>..<.  21>
      20< ................ 19>
      18< ................ 17>
      16< ........||||||||
      15> |.......||||||||
      14< |......|||||||||
      13> ||.....|||||||||
      12< ||....||||||||||
      11> |o....||||||||||
      10< |.....o|||||||||
       9> o......|||||||||
       8< .......or......7 7>
       6< ................ 5>
       4< ttt)(ttt........
       3> ...)(...........
       2< gig)(igigigigigi
       1> -i-)(i-i-i-i-i-i
       0> ___)(___________"
  `);
});

it('knows the pass before which each needle goes into hold, and after which a corner is wrapped', () => {
  for (const sock of SOCKS) {
    const { grid, program, plan } = sock, chart = layChart(sock, 'sock', 'beds'), held: number[] = [], corners = new Set<number>();
    let pass = -1;
    // Counted off the program; what is held in the toe, too.
    for (const step of program.steps) {
      if (step.do === 'knit' || step.do === 'cast-on') pass++;
      else if (step.do === 'hold') held.push(pass + 1);
      else if (step.do === 'wrap' && step.at.bed !== plan.heelBed) corners.add(pass);
    }
    expect([...chart.heldBefore].filter((before) => before > 0).sort((a, b) => a - b), nameOf(plan)).toEqual(held);
    // The loop is there before its needle waits, and the next one is drawn through it later.
    const isWrong = [...chart.heldBefore].map((before, cell) => (before === 0 ? (chart.marks[cell] & CHART_MARK.held) !== 0
      : (chart.marks[cell] & CHART_MARK.held) === 0 || chart.pass[cell] >= before || grid.pass[grid.child[chart.loop[cell]]] <= before));
    expect(isWrong.indexOf(true), nameOf(plan)).toBe(-1);
    expect(chart.cornerPasses, nameOf(plan)).toEqual([...corners]);
  }
});

it('names the bed of every column as the grid has it there, and the heel\'s bed as the one that carries the heel', () => {
  for (const sock of SOCKS) {
    for (const cut of ['beds', 'seam'] as const) {
      const chart = layChart(sock, 'sock', cut), { grid, plan } = sock;
      expect(chart.stretches.map(({ left, right }) => right - left).reduce((sum, columns) => sum + columns, 0), nameOf(plan)).toBe(chart.columnCount);
      // Foot rounds: a stitch stands over its own bed's needles.
      const wrong = [...chart.loop].filter((loop, cell) => {
        const over = chart.stretches.find(({ left, right }) => chart.column[cell] >= left && chart.column[cell] < right);
        return grid.section[loop] === SECTION.foot && (over?.bed !== (grid.bed[loop] === BED.front ? 'front' : 'back') || over.carries !== (over.bed === plan.heelBed ? 'heel' : 'instep'));
      });
      expect(wrong, nameOf(plan)).toEqual([]);
      expect(chart.hasFlatLeg).toBe(plan.legKind === 'flat-rib');
    }
  }
});
