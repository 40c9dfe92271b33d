import { type OwnKind, type OwnRow, withOwnTables } from '@kerfbook/wood';
import { CellError, ErrorType, type HyperFormula, SimpleRangeValue } from 'hyperformula';
import { CallRefused } from '../results/described.ts';
import { ownRows, ownTableOf } from '../results/own-rows.ts';
import { type Around, registerAround } from './around.ts';
import { contextOf } from './context.ts';
import { plainOf } from './functions.ts';

/** Stands around a formula whose functions look in tables of the workbook first. */
export const OWN_NAME = 'KERFBOOK_OWN';

const isError = (value: unknown): value is CellError => value instanceof CellError;

/**
 * `KERFBOOK_OWN(formula, "woods", range, "screws", range …)`: the formula's value, worked out while
 * the ranges are the own tables of their kinds. As arguments they are what the formula depends on,
 * so that it follows a change of them like any other.
 */
const withOwn: Around = ({ inner, rest, evaluate, config }) => {
  const { units: system } = contextOf(config);
  const tables: Partial<Record<OwnKind, readonly OwnRow[]>> = {};
  for (let i = 0; i + 1 < rest.length; i += 2) {
    const [kindAst, rangeAst] = [rest[i], rest[i + 1]];
    if (kindAst === undefined || rangeAst === undefined) continue;
    const table = ownTableOf(String(evaluate(kindAst)));
    const range = evaluate(rangeAst);
    // The rows of the table are gone: what is left is the published tables.
    if (table === undefined || !(range instanceof SimpleRangeValue)) continue;
    const data = range.data.map((line) => line.map(plainOf));
    const rows = ownRows(table, data, system, isError);
    if (rows instanceof CallRefused) return new CellError(ErrorType[rows.type], rows.message);
    if (isError(rows)) return rows;
    tables[table.kind] = rows;
  }
  return withOwnTables(tables, () => evaluate(inner));
};

/** Makes the engine know {@link OWN_NAME}. */
export function registerOwn(engine: typeof HyperFormula): void {
  registerAround(engine, OWN_NAME, withOwn);
}
