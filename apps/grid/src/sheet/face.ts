import type { CellView } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import { same } from '../session/session.ts';
import { highlightCell } from './highlights.ts';

/** Everything a cell may look like, beside what the grid itself says of it. */
type Look =
  | 'is-input'
  | 'is-calculated'
  | 'is-heading'
  | 'is-note'
  | 'is-overridden'
  | 'is-wrong'
  | 'is-error'
  | 'is-clashing'
  | 'is-rounded'
  | 'is-changed'
  | 'is-bold'
  | 'is-italic'
  | 'is-marked-stop'
  | 'is-marked-care'
  | 'is-running-over'
  | 'is-written-in-line'
  | 'is-proving';

/** What was put on each element, so that scrolling touches only what differs. */
const worn = new WeakMap<HTMLElement, readonly Look[]>();

function putLooks(outer: HTMLElement, looks: readonly Look[]): void {
  const before = worn.get(outer) ?? [];
  if (before.length === looks.length && before.every((look, i) => look === looks[i])) return;
  for (const look of before) if (!looks.includes(look)) outer.classList.remove(look);
  outer.classList.add(...looks);
  worn.set(outer, looks);
}

/** Sets an attribute only where it says something else: setting it again costs a new style. */
function say(element: HTMLElement, name: string, value: string | undefined): void {
  if (element.getAttribute(name) === (value ?? null)) return;
  if (value === undefined) element.removeAttribute(name);
  else element.setAttribute(name, value);
}

/**
 * Draws one cell: the words in `inner`, everything else as classes of the grid's own element. Plain
 * DOM, since an edit repaints many cells within a frame, and as little of it as can be: most cells
 * that scroll in are empty, and need no element for words.
 * @returns the element of the words: `inner`, a new one to put in, or none
 */
export function dress(
  outer: HTMLElement,
  inner: HTMLElement | undefined,
  cell: CellView,
  session: Session,
): HTMLElement | undefined {
  const { editing } = session;
  const writing = editing?.from === 'line' && same(editing.at, cell.at) ? editing.text : undefined;
  const before = session.wasShown(cell.at);
  const was = before === cell.shown.text ? undefined : before;
  const looks = looksOf(cell);
  const formula = session.state.value.formulas === true ? cell.formula : undefined;
  const text = writing ?? formula ?? cell.shown.text;
  if (writing !== undefined) looks.push('is-written-in-line');
  if (was !== undefined) looks.push('is-changed');
  if (runsOver(cell, session)) looks.push('is-running-over');
  const { proving } = session.state.value;
  const { sheet, row, column } = cell.at;
  const unproven = proving?.has(`${sheet} ${row} ${column}`) === true;
  if (unproven) looks.push('is-proving');
  putLooks(outer, looks);
  highlightCell(outer, session.isSelected(cell.at));
  const asText = writing !== undefined || formula !== undefined;
  const align = asText ? 'start' : (cell.style?.align ?? cell.shown.align);
  // Where words begin anyway, nothing is said of it.
  say(outer, 'data-align', align === 'start' ? undefined : align);
  say(outer, 'data-background', cell.style?.background);
  const locked = session.book.locked && cell.role !== 'input';
  say(outer, 'aria-readonly', String(!session.mayChange || locked));
  session.noteShown(cell.at, cell.shown.text);
  const title =
    cell.problem?.says ??
    errorOf(cell) ??
    cell.mark?.says ??
    cell.clash?.says ??
    (unproven ? UNPROVEN : cell.remark);
  const silent = text === '' && title === undefined && was === undefined;
  if (silent && inner === undefined) return undefined;
  const words = inner ?? newWords();
  const said = was === undefined ? undefined : was === '' ? 'was empty' : `was ${was}`;
  const beside = said !== undefined && !asText && fitsBeside(cell, said, session);
  say(words, 'data-was', beside ? said : undefined);
  write(words, asText ? undefined : cell, text);
  // On the words: the grid takes titles off its own elements.
  say(words, 'title', [title, said].filter((one) => one !== undefined).join('\n') || undefined);
  return words;
}

const UNPROVEN = 'Still being proven: the buying plan it rests on may yet cost less.';

/** Room for a letter, for one of what was, and for a cell's edges and signs, px; rather too much. */
const ROOM = { letter: 8.5, was: 6.5, edges: 28, sign: 20, usual: 100 } as const;

/** Whether what a cell was has room in it beside what it is: it covers no other cell, nor half shows. */
function fitsBeside(cell: CellView, was: string, session: Session): boolean {
  const { at, shown } = cell;
  if (runsOver(cell, session)) return false;
  const width = session.book.sheet(at.sheet)?.widths[at.column] ?? ROOM.usual;
  const letters = shown.text.length + (shown.exact === undefined ? 0 : 2);
  const sign = cell.mark !== undefined || cell.problem !== undefined ? ROOM.sign : 0;
  return ROOM.edges + sign + letters * ROOM.letter + was.length * ROOM.was <= width;
}

function newWords(): HTMLElement {
  const words = document.createElement('span');
  words.className = 'cell-words';
  return words;
}

function looksOf(cell: CellView): Look[] {
  const looks: Look[] = cell.role === undefined ? [] : [`is-${cell.role}`];
  if (cell.override !== undefined) looks.push('is-overridden');
  if (cell.problem !== undefined) looks.push('is-wrong');
  if (cell.value.kind === 'error') looks.push('is-error');
  else if (cell.clash !== undefined) looks.push('is-clashing');
  if (cell.mark !== undefined) looks.push(`is-marked-${cell.mark.state}`);
  if (cell.style?.bold === true) looks.push('is-bold');
  if (cell.style?.italic === true) looks.push('is-italic');
  if (cell.shown.exact !== undefined) looks.push('is-rounded');
  return looks;
}

const errorOf = (cell: CellView): string | undefined =>
  cell.value.kind === 'error' ? cell.value.error.says : undefined;

function write(inner: HTMLElement, cell: CellView | undefined, text: string): void {
  const fraction = cell?.shown.fraction;
  if (fraction === undefined) {
    if (inner.textContent !== text || inner.childElementCount > 0) inner.textContent = text;
    return;
  }
  const fractional = document.createElement('span');
  fractional.className = 'fraction';
  fractional.textContent = `${fraction.over}/${fraction.under}`;
  const alone = fraction.whole === '' || fraction.whole === '-';
  inner.replaceChildren(alone ? fraction.whole : `${fraction.whole} `, fractional);
}

/** Words may run over the empty cells to their right, as on paper. */
function runsOver(cell: CellView, session: Session): boolean {
  if (cell.value.kind !== 'text') return false;
  const next = { ...cell.at, column: cell.at.column + 1 };
  return session.book.value(next).kind === 'empty' && session.book.cell(next).role !== 'input';
}
