import { FUNCTIONS, type FunctionDescription } from '@kerfbook/wood';
import { BUYING_FUNCTIONS } from './buying.ts';
import { PARTS_FUNCTIONS } from './parts.ts';
import { PLANNING_FUNCTIONS } from './planning.ts';
import { SHEET_BUYING_FUNCTIONS } from './sheets.ts';
import { STANDARD, type StandardFunction } from './standard.ts';
import { WOOD_PRICE_FUNCTIONS } from './wood-prices.ts';

/** Every function of ours: those of the trade, and those that plan buying and cutting. */
const OURS: readonly FunctionDescription[] = [
  ...FUNCTIONS,
  ...WOOD_PRICE_FUNCTIONS,
  ...BUYING_FUNCTIONS,
  ...SHEET_BUYING_FUNCTIONS,
  ...PLANNING_FUNCTIONS,
  ...PARTS_FUNCTIONS,
];

const OURS_BY_NAME = new Map(OURS.map((one) => [one.name, one]));
const STANDARD_BY_NAME = new Map(STANDARD.map((one) => [one.name, one]));

/** Every function of ours, in the order of the job. */
export function functionReference(): readonly FunctionDescription[] {
  return OURS;
}

/** A function of ours by its name in capitals. */
export const ourFunction = (name: string): FunctionDescription | undefined =>
  OURS_BY_NAME.get(name);

/** A function of the open spreadsheet formats by its name in capitals. */
export const standardFunction = (name: string): StandardFunction | undefined =>
  STANDARD_BY_NAME.get(name);

/** The names of all functions that a formula may call. */
export function functionNames(): readonly string[] {
  return [...STANDARD_BY_NAME.keys(), ...OURS_BY_NAME.keys()];
}

/**
 * Functions that were called otherwise in the first version of the format, and how they are called now. A
 * file of then is brought up to date when it is read; who types such a name is told the one of today.
 */
export const FORMER_FUNCTIONS: ReadonlyMap<string, string> = new Map(
  OURS.flatMap(({ name, formerly }) => (formerly === undefined ? [] : [[formerly, name] as const])),
);

/** Names of functions that answer with a plan of boards, which may be looked for further than a cell waits. */
export const PLANNERS: readonly string[] = OURS.filter(({ plans }) => plans === true).map(
  ({ name }) => name,
);

/** Names, and former names, of functions that need a part which is loaded after the first sheet is there. */
export const LATE: readonly string[] = [
  ...STANDARD.filter(({ late }) => late === true).map(({ name }) => name),
  ...OURS.filter(({ late }) => late === true).flatMap(({ name, formerly }) =>
    formerly === undefined ? name : [name, formerly],
  ),
];
