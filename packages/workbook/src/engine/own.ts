import {
  OWN_TABLES,
  type OwnKind,
  type OwnRow,
  type OwnTableDescription,
  type UnitSystem,
  usFromOwn,
  withOwnTables,
} from '@kerfbook/wood';
import {
  CellError,
  ErrorType,
  FunctionPlugin,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { person } from './sentences.ts';

/** Stands around a formula whose functions look in tables of the workbook first. */
export const OWN_NAME = 'KERFBOOK_OWN';

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

const BY_KIND = new Map(OWN_TABLES.map((one) => [one.kind as string, one]));

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
    const system = (this.config.context as { units?: UnitSystem } | undefined)?.units ?? 'us';
    const tables: Partial<Record<OwnKind, readonly OwnRow[]>> = {};
    for (let i = 0; i + 1 < rest.length; i += 2) {
      const [kindAst, rangeAst] = [rest[i], rest[i + 1]];
      if (kindAst === undefined || rangeAst === undefined) continue;
      const table = BY_KIND.get(String(this.evaluateAst(kindAst, state)));
      const range = this.evaluateAst(rangeAst, state);
      // The rows of the table are gone: what is left is the published tables.
      if (table === undefined || !(range instanceof SimpleRangeValue)) continue;
      const rows = rowsOf(table, range.data, system);
      if (rows instanceof CellError) return rows;
      tables[table.kind] = rows;
    }
    return withOwnTables(tables, () => this.evaluateAst(inner, state));
  }
}

/** The rows under the heads, in us units; an error where a head or a row cannot be used. */
function rowsOf(
  { kind, columns }: OwnTableDescription,
  data: readonly (readonly unknown[])[],
  system: UnitSystem,
): readonly OwnRow[] | CellError {
  const [head = [], ...lines] = data;
  const words = head.map((cell) => (typeof cell === 'string' ? cell.trim().toLowerCase() : ''));
  const places = columns.map(({ heads }) => words.indexOf(heads));
  if (places[0] === -1) {
    return new CellError(ErrorType.VALUE, person('E19', kind, columns[0].heads));
  }
  const rows: OwnRow[] = [];
  for (const line of lines) {
    const row: Record<string, string | number> = {};
    for (const [i, { heads, quantity }] of columns.entries()) {
      const cell = line[places[i] ?? -1];
      if (cell instanceof CellError) return cell;
      if (typeof cell === 'string' && cell.trim() !== '') {
        if (quantity !== 'text') {
          return new CellError(ErrorType.VALUE, person('E20', kind, heads, cell));
        }
        row[heads] = cell;
      }
      if (typeof cell === 'number') row[heads] = usFromOwn(quantity, cell, system);
    }
    if (row[columns[0].heads] !== undefined) rows.push(row);
  }
  return rows;
}

export function registerOwn(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(OwnTablesPlugin, { enGB: { [OWN_NAME]: OWN_NAME } });
}
