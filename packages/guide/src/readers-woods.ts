import {
  type At,
  type BookDocument,
  BookState,
  CHECKS_SHEET,
  formulaCells,
  formulaOf,
  keptByIds,
  type Node,
  nodesOf,
} from '@kerfbook/document';
import { type Species, woodsMeant } from '@kerfbook/wood';
import { functionReference } from '@kerfbook/workbook';
import { cellsOf, keyOf, Uses } from './readers-uses.ts';

/** Functions that make words out of others: what they come to stands nowhere in the workbook. */
const MAKING = new Set(
  'CHAR CLEAN CONCAT CONCATENATE LEFT LOWER MID PROPER REPLACE REPT RIGHT SUBSTITUTE TEXT TEXTJOIN TRIM UNICHAR UPPER'.split(
    ' ',
  ),
);

/** Functions that look a wood up. */
const LOOKING: ReadonlySet<string> = new Set(
  functionReference()
    .filter(({ args }) => args.some(({ name }) => name === 'species' || name === 'wood'))
    .map(({ name }) => name),
);

/**
 * The woods that a workbook may name, whatever its readers choose, in the order of the tables; undefined where it may name
 * any: where a wood is typed by readers, or put together out of words.
 */
export function woodsNeeded(document: BookDocument): readonly Species[] | undefined {
  const state = keptByIds(BookState.of(document));
  if (isTyped(state) || isMade(state)) return undefined;
  const meant = new Set([...textsIn(state)].flatMap(woodsMeant));
  return [...meant].sort((a, b) => (a.indexed < b.indexed ? -1 : 1));
}

function isTyped(state: BookState): boolean {
  return (state.head.guide?.inputs ?? []).some((name) => {
    const at = state.named(name);
    const cell = at === undefined ? undefined : state.cell(at);
    const isText = typeof cell?.value === 'string' || cell?.quantity === 'text';
    return isText && cell?.allow?.list === undefined;
  });
}

/** Whether words are put together in any cell that a look-up of a wood, or a material, rests on. */
function isMade(state: BookState): boolean {
  const uses = new Uses(state);
  const rests = new Set<string>();
  const cells = [...formulaCells(state)];
  const looking = [
    ...cells.map(({ cell, at }) => ({ formula: formulaOf(cell), home: at.sheet })),
    ...state.checks.map((check) => ({ formula: formulaOf(check), home: CHECKS_SHEET })),
  ];
  for (const { formula, home } of looking) {
    const calls = formula.root === undefined ? [] : [...nodesOf(formula.root)].filter(looks);
    if (calls.some((call) => [...nodesOf(call)].some(makes))) return true;
    if (calls.length > 0) uses.follow(uses.usedIn(formula, home), rests);
  }
  uses.follow(materialCells(state), rests);
  return cells.some(({ cell, at }) => {
    const { root } = formulaOf(cell);
    return root !== undefined && rests.has(keyOf(at)) && [...nodesOf(root)].some(makes);
  });
}

/** The cells of parts and boards that say of which wood they are. */
function materialCells(state: BookState): readonly At[] {
  return state.tables.flatMap((table) => {
    if (table.kind !== 'parts' && table.kind !== 'stock') return [];
    const header = state.rowIndex(table.sheet, table.header) ?? 0;
    return cellsOf(state, table).filter((at) => {
      const head = state.cell({ ...at, row: header });
      return head?.formula !== undefined || String(head?.value).trim().toLowerCase() === 'material';
    });
  });
}

const looks = (node: Node): boolean => node.kind === 'call' && LOOKING.has(node.name);

const makes = (node: Node): boolean =>
  node.kind === 'call' ? MAKING.has(node.name) : node.kind === 'joined' && node.sign === '&';

/** All words of a workbook that a cell may come to. */
function textsIn(state: BookState): ReadonlySet<string> {
  const texts = new Set<string>();
  const add = (one: unknown): void => {
    if (typeof one === 'string') texts.add(one);
  };
  for (const { id, rows, columns } of state.sheets) {
    for (const row of rows.keys()) {
      for (const column of columns.keys()) {
        const cell = state.cell({ sheet: id, row, column });
        if (cell === undefined) continue;
        add(cell.value);
        add(cell.override);
        for (const one of cell.allow?.list ?? []) add(one);
        const root = cell.formula === undefined ? undefined : formulaOf(cell)?.root;
        for (const node of root === undefined ? [] : nodesOf(root)) {
          if (node.kind === 'text') add(node.value);
        }
      }
    }
  }
  return texts;
}
