import type { BookDocument, CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { freeSheetName } from '../state/ids.ts';
import type { BookState, NameHome } from '../state/state.ts';
import { mergeComplaint } from './sentences.ts';
import { cellPlace, type Merging, tell } from './sides.ts';

/**
 * Names of cells and of sheets once each: what had a name before both keeps it, else what the first log
 * named (rule H7). Another cell comes without it, another sheet gets the next one like it.
 */
export const namedOnce = (merging: Merging, document: BookDocument): BookDocument =>
  titledOnce(merging, cellsNamedOnce(merging, document));

function cellsNamedOnce(merging: Merging, document: BookDocument): BookDocument {
  const homes = new Map<string, NameHome[]>();
  for (const home of namesIn(document)) {
    const key = nameKey(home.name);
    const all = homes.get(key);
    if (all === undefined) homes.set(key, [home]);
    else all.push(home);
  }
  const nameless = new Set<string>();
  for (const [key, all] of homes) {
    if (all.length < 2) continue;
    const ranked = [...all].sort((a, b) => rank(merging, key, a) - rank(merging, key, b));
    const [keeps, ...others] = ranked;
    if (keeps === undefined) continue;
    for (const other of others) {
      nameless.add(placeKey(other));
      tellTwice(merging, keeps, other, document);
    }
  }
  if (nameless.size === 0) return document;
  const sheets = document.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => {
      if (row.cells === undefined) return row;
      const cells = Object.entries(row.cells).map(([column, cell]): [string, CellDocument] => {
        if (!nameless.has(placeKey({ sheet: sheet.id, row: row.id, column })))
          return [column, cell];
        const { name: _name, ...rest } = cell;
        return [column, rest];
      });
      return { ...row, cells: Object.fromEntries(cells) };
    }),
  }));
  return { ...document, sheets };
}

function tellTwice(
  merging: Merging,
  keeps: NameHome,
  other: NameHome,
  document: BookDocument,
): void {
  const [one, two] = [keeps, other].map(({ sheet, row, column }) =>
    cellPlace([merging.second.state, merging.first.state], sheet, row, column).replace(
      / \(.*$/,
      '',
    ),
  );
  const cell = document.sheets
    .find(({ id }) => id === other.sheet)
    ?.rows.find(({ id }) => id === other.row)?.cells?.[other.column];
  const { sheet, row, column } = other;
  tell(merging, mergeComplaint('X7', keeps.name, one ?? '', two ?? ''), [
    { change: 'cells', sheet, cells: [{ row, column, cell: cell ?? null }] },
  ]);
}

function* namesIn({ sheets }: BookDocument): Generator<NameHome> {
  for (const sheet of sheets) {
    for (const row of sheet.rows) {
      for (const [column, { name }] of Object.entries(row.cells ?? {})) {
        if (name !== undefined) yield { name, sheet: sheet.id, row: row.id, column };
      }
    }
  }
}

const placeKey = ({ sheet, row, column }: Omit<NameHome, 'name'>): string =>
  `${sheet} ${row} ${column}`;

/** Who keeps a name: 0 had it before both, 1 has it from the first log. */
function rank({ base, first }: Merging, key: string, home: NameHome): number {
  const has = (state: BookState): boolean => {
    const found = state.homes.get(key);
    return found !== undefined && placeKey(found) === placeKey(home);
  };
  if (has(base)) return 0;
  return has(first.state) ? 1 : 2;
}

function titledOnce(merging: Merging, document: BookDocument): BookDocument {
  const { base, first, second } = merging;
  const byName = new Map<string, string[]>();
  for (const { id, name } of document.sheets) {
    byName.set(nameKey(name), [...(byName.get(nameKey(name)) ?? []), id]);
  }
  const taken = new Set(byName.keys());
  const names = new Map<string, string>();
  for (const [key, ids] of byName) {
    if (ids.length < 2) continue;
    const called = (state: BookState, id: string): boolean =>
      nameKey(state.sheetName(id) ?? '') === key;
    const rankOf = (id: string): number => (called(base, id) ? 0 : called(first.state, id) ? 1 : 2);
    const [, ...others] = [...ids].sort((a, b) => rankOf(a) - rankOf(b));
    for (const id of others) {
      const log = rankOf(id) === 1 ? first : second;
      const name = log.state.sheetName(id) ?? id;
      const now = freeSheetName(taken, name);
      taken.add(nameKey(now));
      names.set(id, now);
      const left = { change: 'set', list: 'sheets', id, set: { name } } as const;
      tell(merging, mergeComplaint('X8', name, log.name, now), [left]);
    }
  }
  if (names.size === 0) return document;
  const sheets = document.sheets.map((sheet) => {
    const name = names.get(sheet.id);
    return name === undefined ? sheet : { ...sheet, name };
  });
  return { ...document, sheets };
}
