import type { At, CellView } from '@kerfbook/workbook';
import { reasonsOf, UNPROVEN } from '../page/reasons.ts';
import { type Run, roomToRun, wraps } from '../session/running-over.ts';
import type { Session } from '../session/session.ts';
import { same } from '../session/session.ts';
import { isToTypeOver } from '../session/to-type-over.ts';
import { shortOf, widthOfDecimals } from './fit.ts';
import { highlightCell } from './highlights.ts';
import { shorterBy } from './points.ts';
import type { Remark } from './remarks.ts';

/** Everything a cell may look like, beside what the grid itself says of it. */
type Look =
  | 'is-input'
  | 'is-blank'
  | 'is-calculated'
  | 'is-to-type-over'
  | 'is-heading'
  | 'is-note'
  | 'is-overridden'
  | 'is-wrong'
  | 'is-error'
  | 'is-clashing'
  | 'is-rounded'
  | 'is-list'
  | 'is-changed'
  | 'is-bold'
  | 'is-italic'
  | 'is-wrapped'
  | 'is-marked-stop'
  | 'is-marked-care'
  | 'is-running-over'
  | 'is-long'
  | 'is-over-lines'
  | 'is-going-on'
  | 'is-written-in-line'
  | 'is-proving'
  | 'is-compared'
  | 'can-pull'
  | 'is-pulled';

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
 * @param width of its column, px
 * @param remark how it stands, where it is a note that is too long for one line
 * @returns the element of the words: `inner`, a new one to put in, or none
 */
export function dress(
  outer: HTMLElement,
  inner: HTMLElement | undefined,
  cell: CellView,
  session: Session,
  width = Number.POSITIVE_INFINITY,
  remark: Remark | undefined = undefined,
): HTMLElement | undefined {
  const { editing } = session;
  const writing = editing?.from === 'line' && same(editing.at, cell.at) ? editing.text : undefined;
  const before = session.wasShown(cell.at);
  const was = before === cell.shown.text ? undefined : before;
  const looks = looksOf(cell);
  const formula = session.state.value.formulas === true ? cell.formula : undefined;
  const text = writing ?? formula ?? cell.shown.text;
  if (text === '' && looks.includes('is-input')) looks.push('is-blank');
  if (writing !== undefined) looks.push('is-written-in-line');
  if (was !== undefined) looks.push('is-changed');
  const other = session.otherwise(cell.at);
  if (other !== undefined) looks.push('is-compared');
  const run = roomToRun(cell, session);
  // While it is written in above, its words are on one line and its row stays as high as it is.
  const over = writing === undefined ? remark : undefined;
  if (run !== undefined) looks.push(run.over ? 'is-running-over' : 'is-long');
  if (over !== undefined) looks.push(over.lines > 1 ? 'is-over-lines' : 'is-going-on');
  const { proving, partTroubles } = session.state.value;
  const { sheet, row, column } = cell.at;
  const key =
    proving === undefined && partTroubles === undefined ? '' : `${sheet} ${row} ${column}`;
  const unproven = proving?.has(key) === true;
  const trouble = partTroubles?.get(key);
  if (trouble !== undefined) looks.push(`is-marked-${trouble.state}`);
  if (unproven) looks.push('is-proving');
  const locked = session.book.locked && cell.role !== 'input';
  if (!locked && isToTypeOver(cell)) looks.push('is-to-type-over');
  const pulls = session.mayChange && !locked && isRanged(cell);
  if (pulls) looks.push('can-pull');
  putSign(outer, pulls ? (session.pulls.now ?? UNPULLED) : undefined, looks, cell.at);
  putLooks(outer, looks);
  highlightCell(outer, session.isSelected(cell.at));
  const asText = writing !== undefined || formula !== undefined;
  const align = asText ? 'start' : (cell.style?.align ?? cell.shown.align);
  // Where words begin anyway, nothing is said of it.
  say(outer, 'data-align', align === 'start' ? undefined : align);
  say(outer, 'data-background', cell.style?.background);
  say(outer, 'aria-readonly', String(!session.mayChange || locked));
  session.noteShown(cell.at, cell.shown.text);
  const reasons = reasonsOf(cell, session.book, trouble).map(({ says }) => says);
  if (unproven) reasons.push(UNPROVEN);
  // Words may be missing in the cell: what stands there is told on its element.
  say(outer, 'aria-description', other === undefined ? undefined : elsewhere(other, session));
  putReason(outer, reasons.join('\n'));
  const title = reasons.length > 0 ? reasons.join('\n') : cell.remark;
  const silent = text === '' && title === undefined && was === undefined && other === undefined;
  if (silent && inner === undefined) return undefined;
  const words = inner ?? newWords();
  const said = was === undefined ? undefined : was === '' ? 'was empty' : `was ${was}`;
  const there = other === undefined ? undefined : elsewhere(other, session);
  const after = asText ? 0 : afterPoint(cell, session, width);
  const short = asText ? undefined : shortOf(cell, width - after);
  // The words stay whole for whoever reads them aloud, copies or looks for them.
  say(words, 'data-short', short);
  write(words, asText ? undefined : cell, text);
  runOver(words, run, over);
  put(words, '--after', after === 0 ? '' : `${after}px`);
  // On the words: the grid takes titles off its own elements.
  const whole =
    short === undefined ? undefined : `${cell.shown.exact === undefined ? '' : '≈ '}${text}`;
  say(
    words,
    'title',
    [whole, title, said, there].filter((one) => one !== undefined).join('\n') || undefined,
  );
  return words;
}

/** `In "Dining table": 84 in` */
const elsewhere = (text: string, session: Session): string =>
  `In "${session.state.value.comparing?.title ?? ''}": ${text === '' ? 'empty' : text}`;

/** A number with an end to its range: it can be pulled. */
const isRanged = ({ allow, value, formula, problem }: CellView): boolean =>
  allow !== undefined &&
  (allow.min !== undefined || allow.max !== undefined) &&
  allow.list === undefined &&
  value.kind === 'number' &&
  formula === undefined &&
  problem === undefined;

const signs = new WeakMap<HTMLElement, HTMLElement>();
const UNPULLED = { at: undefined };

/** The sign that a number can be pulled, at the start of its cell; while it is, a bar of where in its range it is. */
function putSign(
  outer: HTMLElement,
  pulling: { readonly at: At | undefined; readonly share?: number } | undefined,
  looks: Look[],
  at: At,
): void {
  let sign = signs.get(outer);
  if (pulling === undefined) {
    sign?.remove();
    signs.delete(outer);
    return;
  }
  if (sign === undefined) {
    sign = document.createElement('span');
    sign.className = 'pull-sign';
    sign.setAttribute('aria-hidden', 'true');
    signs.set(outer, sign);
  }
  putIn(outer, sign, signs);
  if (pulling.at === undefined || !same(pulling.at, at)) return;
  looks.push('is-pulled');
  outer.style.setProperty('--share', String(pulling.share ?? 0));
}

const spoken = new WeakMap<HTMLElement, HTMLElement>();

/**
 * Why the cell bears its mark: over the mark, where a pointer asks for it whether or not there are words, and for who
 * hears the cell read out.
 */
function putReason(outer: HTMLElement, says: string): void {
  let reason = spoken.get(outer);
  if (says === '') {
    reason?.remove();
    spoken.delete(outer);
    return;
  }
  if (reason === undefined) {
    reason = document.createElement('span');
    reason.className = 'cell-reason';
    reason.setAttribute('role', 'img');
    spoken.set(outer, reason);
  }
  say(reason, 'title', says);
  say(reason, 'aria-label', says);
  putIn(outer, reason, spoken);
}

/** The grid empties a cell before it puts the first words in: what stands beside them comes after. */
function putIn(
  outer: HTMLElement,
  put: HTMLElement,
  current: WeakMap<HTMLElement, HTMLElement>,
): void {
  if (put.parentElement === outer) return;
  queueMicrotask(() => {
    if (current.get(outer) === put && put.parentElement !== outer) outer.append(put);
  });
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
  if (wraps(cell)) looks.push('is-wrapped');
  if (cell.shown.exact !== undefined) looks.push('is-rounded');
  if (cell.allow?.list !== undefined) looks.push('is-list');
  return looks;
}

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

/** Words that run over end where the empty cells do, and where the grid does: there with an ellipsis. */
function runOver(words: HTMLElement, run: Run | undefined, over: Remark | undefined): void {
  put(words, '--room', run === undefined ? '' : `${run.room}px`);
  put(words, '--from', run === undefined ? '' : `${run.from}px`);
  put(words, '--line', over === undefined ? '' : `${over.room}px`);
  put(words, '--lines', over === undefined ? '' : String(over.lines));
}

/** Sets a property of its style only where it is another. */
function put({ style }: HTMLElement, name: string, value: string): void {
  if (style.getPropertyValue(name) !== value) style.setProperty(name, value);
}

/** Room behind a number with fewer decimals than its column, px; none where it would not fit its cell then. */
function afterPoint(cell: CellView, session: Session, width: number): number {
  const shorter = shorterBy(cell, session);
  if (shorter === undefined) return 0;
  const room = widthOfDecimals(shorter.digits, shorter.point, cell.style?.bold === true);
  return shortOf(cell, width - room) === undefined ? room : 0;
}
