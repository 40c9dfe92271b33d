import {
  type At,
  type FunctionPage,
  findPages,
  functionPages,
  nameKey,
  type OpenWorkbook,
  STANDARD_PAGES,
  withUnit,
} from '@kerfbook/workbook';
import type { Command } from '../page/commands.ts';
import { wordsFor } from '../session/called.ts';

/** Something found by its words, with its name, where a cell has one, and where or what it is beside it. */
export type Found = {
  readonly key: string;
  readonly says: string;
  readonly named?: string;
  readonly aside: string;
} & (
  | { readonly kind: 'cell'; readonly at: At }
  | { readonly kind: 'sheet'; readonly sheet: string }
  | { readonly kind: 'function'; readonly name: string }
  | { readonly kind: 'command'; readonly does: () => void }
);

/** How many of each kind are shown: what is wanted among more is found by another letter. */
const MOST = { cell: 30, function: 12 } as const;

/**
 * Everything whose words hold what is wanted, regardless of case: commands and sheets first, named
 * cells, cells by the words beside them, functions. Nothing wanted: the commands and sheets there are.
 * @returns each cell once, in the order of the list
 */
export function findAnything(
  book: OpenWorkbook,
  commands: readonly Command[],
  wanted: string,
): readonly Found[] {
  const word = wanted.trim().toLowerCase();
  const near = commands.filter(({ says }) => says.toLowerCase().includes(word));
  const sheets = book.sheets().filter(({ name }) => name.toLowerCase().includes(word));
  return [
    ...sheets.map(
      ({ id, name, isHidden }): Found => ({
        kind: 'sheet',
        key: `sheet ${id}`,
        says: name,
        aside: isHidden ? 'hidden sheet' : 'sheet',
        sheet: id,
      }),
    ),
    ...near.map(
      ({ says, does }): Found => ({
        kind: 'command',
        key: `command ${says}`,
        says,
        aside: 'command',
        does,
      }),
    ),
    ...(word === '' ? [] : [...cellsFound(book, word), ...functionsFound(book, word)]),
  ];
}

function cellsFound(book: OpenWorkbook, word: string): readonly Found[] {
  const found = new Map<string, Found>();
  const add = (at: At, words?: string): void => {
    const cell = book.cell(at);
    const says = words ?? wordsFor(at, book) ?? cell.name ?? '';
    const named = cell.name?.toLowerCase() === says.toLowerCase() ? undefined : cell.name;
    const where = `${book.sheet(at.sheet)?.name ?? ''} ${cell.address}`;
    const value = withUnit(cell.shown.text, cell.unit);
    const key = `cell ${at.sheet} ${at.row} ${at.column}`;
    const aside = value === '' || value === says ? where : `${value} · ${where}`;
    if (found.size < MOST.cell && !found.has(key))
      found.set(key, {
        kind: 'cell',
        key,
        says,
        ...(named === undefined ? {} : { named }),
        aside,
        at,
      });
  };
  for (const { name, at } of book.names()) if (nameKey(name).includes(nameKey(word))) add(at);
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows && found.size < MOST.cell; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const at = { sheet: id, row, column };
        const value = book.value(at);
        if (value.kind !== 'text' || !value.text.toLowerCase().includes(word)) continue;
        add(labelled(book, at), value.text);
      }
    }
  }
  return [...found.values()];
}

/** The cell that words at its left are about: the next one, where that holds a number or a name. */
function labelled(book: OpenWorkbook, at: At): At {
  const next = { ...at, column: at.column + 1 };
  const view = book.cell(next);
  return view.name !== undefined || book.value(next).kind === 'number' ? next : at;
}

function functionsFound({ units }: OpenWorkbook, word: string): readonly Found[] {
  const ours: readonly Pick<FunctionPage, 'name' | 'task'>[] = findPages(
    functionPages(units),
    word,
  );
  const standard: readonly Pick<FunctionPage, 'name' | 'task'>[] = findPages(STANDARD_PAGES, word);
  return [...ours, ...standard].slice(0, MOST.function).map(({ name, task }) => ({
    kind: 'function',
    key: `function ${name}`,
    says: name,
    aside: `function, ${task.toLowerCase()}`,
    name,
  }));
}
