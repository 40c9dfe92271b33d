import { CuttingFault, positiveSize, priceOf, shown, sizeOrZero, wholeCount } from './fault.ts';
import type { SheetsJob } from './sheets-types.ts';
import { LENGTH_STEP, MONEY_STEP, stepsDown, stepsUp } from './units.ts';

/** One piece that is wanted. Steps, a kerf longer and wider than it is. */
export interface Panel {
  readonly part: number;
  readonly length: number;
  readonly width: number;
  readonly mayTurn: boolean;
}

/** Steps, a kerf longer and wider than what is left of a sheet when its edges are trimmed. */
export interface SheetKind {
  readonly index: number;
  readonly length: number;
  readonly width: number;
  /** Money steps. */
  readonly price: number;
  readonly supply: number;
}

export interface SheetsProblem {
  readonly panels: readonly Panel[];
  readonly kinds: readonly SheetKind[];
}

const MOST_PANELS = 2_000;

/** @throws CuttingFault what is wrong and with which part or sheet */
export function sheetsProblem(job: SheetsJob): SheetsProblem {
  const kerf = stepsDown(sizeOrZero(job.kerf ?? 0, 'The kerf', 'bad-kerf'), LENGTH_STEP);
  const kinds = kindsOf(job, kerf);
  const panels = job.parts.flatMap((part, index): Panel[] => {
    const name = `part "${part.key}"`;
    const panel = {
      part: index,
      length: stepsDown(positiveSize(part.length, `The length of ${name}`), LENGTH_STEP) + kerf,
      width: stepsDown(positiveSize(part.width, `The width of ${name}`), LENGTH_STEP) + kerf,
      mayTurn: part.mayTurn ?? false,
    };
    const count = wholeCount(part.count, `The count of ${name}`);
    if (count > MOST_PANELS) throw tooMany(count);
    if (count > 0 && !kinds.some((kind) => kind.supply > 0 && fits(panel, kind))) {
      throw tooBig(job, index);
    }
    return new Array<Panel>(count).fill(panel);
  });
  if (panels.length > MOST_PANELS) throw tooMany(panels.length);
  return { panels, kinds };
}

/** Whether a panel lies on a rectangle in some allowed way. */
export function fits(
  { length, width, mayTurn }: Panel,
  on: { readonly length: number; readonly width: number },
): boolean {
  if (length <= on.length && width <= on.width) return true;
  return mayTurn && width <= on.length && length <= on.width;
}

function kindsOf(job: SheetsJob, kerf: number): SheetKind[] {
  if (job.sheets.length === 0) {
    throw new CuttingFault('no-stock', 'There is no sheet to cut from. List at least one size.');
  }
  const trim = sizeOrZero(job.edgeTrim ?? 0, 'The edge trim', 'bad-trim');
  return job.sheets.map((sheet, index) => {
    const name = `sheet ${index + 1}`;
    const length = positiveSize(sheet.length, `The length of ${name}`) - 2 * trim;
    const width = positiveSize(sheet.width, `The width of ${name}`) - 2 * trim;
    if (Math.min(length, width) <= 0) {
      throw new CuttingFault(
        'bad-trim',
        `The edge trim is ${shown(trim)}, which leaves nothing of a sheet of ${shown(sheet.length)} x ${shown(sheet.width)}.`,
        { trim, length: sheet.length, width: sheet.width },
      );
    }
    return {
      index,
      length: stepsUp(length, LENGTH_STEP) + kerf,
      width: stepsUp(width, LENGTH_STEP) + kerf,
      price: stepsDown(priceOf(sheet.price, `The price of ${name}`), MONEY_STEP),
      supply:
        sheet.supply === undefined
          ? Number.POSITIVE_INFINITY
          : wholeCount(sheet.supply, `The supply of ${name}`),
    };
  });
}

const tooMany = (count: number): CuttingFault =>
  new CuttingFault(
    'too-many',
    `There are ${count} parts; up to ${MOST_PANELS} can be planned at once. Split the list.`,
    { got: count, most: MOST_PANELS },
  );

function tooBig(job: SheetsJob, index: number): CuttingFault {
  const part = job.parts[index];
  const size = `${shown(part?.length ?? 0)} x ${shown(part?.width ?? 0)}`;
  const largest = [...job.sheets].sort((a, b) => b.length * b.width - a.length * a.width)[0];
  const turn = part?.mayTurn === true ? ', turned or not' : ', and may not be turned';
  return new CuttingFault(
    'too-big',
    `Part "${part?.key}" is ${size}${turn}; it fits no sheet listed (the largest is ${shown(largest?.length ?? 0)} x ${shown(largest?.width ?? 0)}, less its edge trim).`,
    { part: part?.key ?? '', length: part?.length ?? 0, width: part?.width ?? 0 },
  );
}
