import type { Meter } from './knapsack.ts';
import { remembered } from './remember.ts';
import { sheetsBound } from './sheets-bound.ts';
import { presentedSheets } from './sheets-present.ts';
import { sheetsProblem } from './sheets-problem.ts';
import { bestPacking } from './sheets-search.ts';
import type { SheetsJob, SheetsPlan } from './sheets-types.ts';

const KEPT = 16;
/** Free pieces looked at: about a hundred in a microsecond. */
const WORK = 20_000_000;
const WORK_IN_CELL = WORK / 20;

/**
 * Rectangular parts from sheets, every cut from edge to edge of the piece it divides, with where each
 * part lies and the order of cuts.
 *
 * Parts are cut off the corners of free pieces in several hundred orders and manners, the same ones
 * each time, and the plan of least cost is taken. That is a heuristic: `bound` says what no plan can
 * be under, and `proven` that the plan meets it. Grain runs along the sheet's length, and a part
 * turns only where it may.
 * @throws CuttingFault with a sentence that names the part or sheet
 * Source: kerf, trim and grain are common practice, no source.
 */
export const planSheets: (job: SheetsJob) => SheetsPlan = remembered((job: SheetsJob) => {
  const problem = sheetsProblem(job);
  if (problem.panels.length === 0) return presentedSheets(job, { sheets: [], cost: 0 }, 0);
  const meter: Meter = { left: job.effort === 'cell' ? WORK_IN_CELL : WORK };
  const packing = bestPacking(problem, job.first, meter);
  return presentedSheets(job, packing, sheetsBound(problem, packing.cost));
}, KEPT);
