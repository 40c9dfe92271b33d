import {
  type At,
  type BookState,
  type Formula,
  functionsIn,
  type Token,
  writtenSheet,
} from '@kerfbook/document';
import { functionReference } from '@kerfbook/functions';
import { OWN_TABLES, type OwnKind, ownTablesOf } from '@kerfbook/wood';
import type { Values } from '../port.ts';

/** Columns of a sheet in which an own table's heads are looked for: A to Z. */
export const OWN_COLUMNS = 26;

/** Where a table of the maker's own stands: rows counted from 0, its head first. */
interface OwnArea {
  readonly kind: OwnKind;
  readonly sheet: string;
  readonly header: number;
  readonly last: number;
}

const KINDS: ReadonlySet<string> = new Set(OWN_TABLES.map(({ kind }) => kind));
const isOwnKind = (kind: string): kind is OwnKind => KINDS.has(kind);

/** The workbook's own tables; of two of a kind the first counts. */
export function ownAreas(state: Pick<BookState, 'tables' | 'rowIndex'>): readonly OwnArea[] {
  const areas = new Map<OwnKind, OwnArea>();
  for (const { kind, sheet, header: head, last: end } of state.tables) {
    if (!isOwnKind(kind) || areas.has(kind)) continue;
    const [header, last] = [state.rowIndex(sheet, head), state.rowIndex(sheet, end)];
    if (header !== undefined && last !== undefined) areas.set(kind, { kind, sheet, header, last });
  }
  return [...areas.values()];
}

const LOOKS = new Map(
  functionReference()
    .map((one) => [one.name, ownTablesOf(one)] as const)
    .filter(([, kinds]) => kinds.length > 0),
);
/** Kinds of own tables that the functions of a formula look in. */
export const ownKindsIn = (formula: Formula): ReadonlySet<OwnKind> =>
  new Set(functionsIn(formula).flatMap((name) => LOOKS.get(name) ?? []));

/** Own tables a formula on a sheet looks in first; those of its own sheet would lead in a circle. */
export function ownAreasOf(formula: Formula, sheet: string, state: BookState): readonly OwnArea[] {
  if (state.tables.length === 0) return [];
  const areas = ownAreas(state).filter((area) => area.sheet !== sheet);
  if (areas.length === 0) return [];
  const kinds = ownKindsIn(formula);
  return areas.filter(({ kind }) => kinds.has(kind));
}

const COMMA: Token = { type: 'operator', value: ',' };

/** The same as the engine is told of them; `undefined` where there is none. */
export function ownForEngine(
  formula: Formula,
  sheet: string,
  state: BookState,
): readonly Token[] | undefined {
  const areas = ownAreasOf(formula, sheet, state);
  if (areas.length === 0) return undefined;
  return areas.flatMap(({ kind, sheet: home, header, last }, i) => {
    const name = writtenSheet(state.sheetName(home) ?? '');
    return [
      ...(i === 0 ? [] : [COMMA]),
      { type: 'string', value: `"${kind}"` },
      COMMA,
      { type: 'address', value: `${name}!$A$${header + 1}:$Z$${last + 1}` },
    ];
  });
}

export const isWithin = (at: At, { sheet, header, last }: OwnArea): boolean =>
  at.sheet === sheet && at.row >= header && at.row <= last && at.column < OWN_COLUMNS;

/** Names in the first column of an own table, as they stand. */
export function ownNames(
  { state, values }: { readonly state: BookState; readonly values: Values },
  kind: OwnKind | undefined,
): readonly string[] {
  const area = ownAreas(state).find((one) => one.kind === kind);
  if (area === undefined) return [];
  const heads = OWN_TABLES.find((one) => one.kind === kind)?.columns[0].heads;
  const word = (row: number, column: number): string => {
    const value = values.value({ sheet: area.sheet, row, column });
    return value.kind === 'text' ? value.text.trim() : '';
  };
  const wide = Math.min(OWN_COLUMNS, state.sheet(area.sheet)?.columns.length ?? 0);
  const column = Array.from({ length: wide }, (_, i) => i).find(
    (i) => word(area.header, i).toLowerCase() === heads,
  );
  if (column === undefined) return [];
  return Array.from({ length: area.last - area.header }, (_, i) => area.header + 1 + i)
    .map((row) => word(row, column))
    .filter((name) => name !== '');
}
