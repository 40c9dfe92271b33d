import { type OwnKind, type OwnRow, withOwnTables } from '@kerfbook/wood';
import {
  CellError,
  ErrorType,
  FunctionPlugin,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { CallRefused } from '../results/described.ts';
import { ownRows, ownTableOf } from '../results/own-rows.ts';
import { person } from '../results/sentences.ts';
import { contextOf } from './context.ts';
import { plainOf } from './functions.ts';

/** Stands around a formula whose functions look in tables of the workbook first. */
export const OWN_NAME = 'KERFBOOK_OWN';

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

const isError = (value: unknown): value is CellError => value instanceof CellError;

/**
 * `KERFBOOK_OWN(formula, "woods", range, "screws", range …)`: the formula's value, worked out while
 * the ranges are the own tables of their kinds. As arguments they are what the formula depends on,
 * so that it follows a change of them like any other.
 */
class OwnTablesPlugin extends FunctionPlugin {
  static override implementedFunctions = {
    [OWN_NAME]: { method: 'withOwn', parameters: [], repeatLastArgs: 0 },
  };

  withOwn({ args }: Ast, state: State) {
    const [inner, ...rest] = args;
    if (inner === undefined) return new CellError(ErrorType.ERROR, person('E17'));
    const { units: system } = contextOf(this.config);
    const tables: Partial<Record<OwnKind, readonly OwnRow[]>> = {};
    for (let i = 0; i + 1 < rest.length; i += 2) {
      const [kindAst, rangeAst] = [rest[i], rest[i + 1]];
      if (kindAst === undefined || rangeAst === undefined) continue;
      const table = ownTableOf(String(this.evaluateAst(kindAst, state)));
      const range = this.evaluateAst(rangeAst, state);
      // The rows of the table are gone: what is left is the published tables.
      if (table === undefined || !(range instanceof SimpleRangeValue)) continue;
      const data = range.data.map((line) => line.map(plainOf));
      const rows = ownRows(table, data, system, isError);
      if (rows instanceof CallRefused) return new CellError(ErrorType[rows.type], rows.message);
      if (isError(rows)) return rows;
      tables[table.kind] = rows;
    }
    return withOwnTables(tables, () => this.evaluateAst(inner, state));
  }
}

export function registerOwn(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(OwnTablesPlugin, { enGB: { [OWN_NAME]: OWN_NAME } });
}
