import type { CellView } from '@kerfbook/workbook';
import type { Session } from '../session.ts';
import { same } from '../session.ts';
import { markCell } from './marks.ts';

/** Everything a cell may look like; kept off and put on by name. */
const LOOKS = [
  'is-input',
  'is-calculated',
  'is-heading',
  'is-note',
  'is-overridden',
  'is-wrong',
  'is-error',
  'is-clashing',
  'is-rounded',
  'is-changed',
  'is-strong',
  'is-slanted',
  'is-marked-stop',
  'is-marked-care',
  'is-running-over',
  'is-written-in-line',
] as const;

type Look = (typeof LOOKS)[number];

/**
 * Draws one cell: the words in `inner`, everything else as classes of the grid's own element. Plain
 * DOM, since an edit repaints many cells within a frame.
 */
export function dress(
  outer: HTMLElement,
  inner: HTMLElement,
  cell: CellView,
  session: Session,
): void {
  const { editing } = session;
  const writing = editing?.from === 'line' && same(editing.at, cell.at) ? editing.text : undefined;
  const was = session.wasShown(cell.at);
  const looks = new Set<Look>(looksOf(cell));
  const formula = session.state.value.formulas === true ? cell.formula : undefined;
  const text = writing ?? formula ?? cell.shown.text;
  if (writing !== undefined) looks.add('is-written-in-line');
  if (was !== undefined && was !== cell.shown.text) {
    looks.add('is-changed');
    inner.dataset.was = was === '' ? 'was empty' : `was ${was}`;
  } else delete inner.dataset.was;
  if (runsOver(cell, session)) looks.add('is-running-over');
  for (const look of LOOKS) outer.classList.toggle(look, looks.has(look));
  markCell(outer, session.isSelected(cell.at));
  const asText = writing !== undefined || formula !== undefined;
  outer.dataset.align = asText ? 'start' : (cell.look?.align ?? cell.shown.align);
  if (cell.look?.ground === undefined) delete outer.dataset.ground;
  else outer.dataset.ground = cell.look.ground;
  const kept = session.book.inputsOnly && cell.role !== 'input';
  outer.setAttribute('aria-readonly', String(!session.mayChange || kept));
  write(inner, asText ? undefined : cell, text);
  const title =
    cell.problem?.says ?? errorOf(cell) ?? cell.mark?.says ?? cell.clash?.says ?? cell.remark;
  // On the words: the grid takes titles off its own elements.
  if (title === undefined) inner.removeAttribute('title');
  else inner.title = title;
  session.noteShown(cell.at, cell.shown.text);
}

function looksOf(cell: CellView): Look[] {
  const looks: Look[] = cell.role === undefined ? [] : [`is-${cell.role}`];
  if (cell.override !== undefined) looks.push('is-overridden');
  if (cell.problem !== undefined) looks.push('is-wrong');
  if (cell.value.kind === 'error') looks.push('is-error');
  else if (cell.clash !== undefined) looks.push('is-clashing');
  if (cell.mark !== undefined) looks.push(`is-marked-${cell.mark.state}`);
  if (cell.look?.strong === true) looks.push('is-strong');
  if (cell.look?.slanted === true) looks.push('is-slanted');
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
  const part = document.createElement('span');
  part.className = 'fraction';
  part.textContent = `${fraction.over}/${fraction.under}`;
  const alone = fraction.whole === '' || fraction.whole === '-';
  inner.replaceChildren(alone ? fraction.whole : `${fraction.whole} `, part);
}

/** Words may run over the empty cells to their right, as on paper. */
function runsOver(cell: CellView, session: Session): boolean {
  if (cell.value.kind !== 'text') return false;
  const next = { ...cell.at, column: cell.at.column + 1 };
  return session.book.value(next).kind === 'empty' && session.book.cell(next).role !== 'input';
}
