import type { At, BookState, Token } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import { formulaAt } from '../book/formula-at.ts';
import { pathOfCycle } from '../results/cycle.ts';
import { ErrorReader, type FoundError } from '../results/errors.ts';
import { LONGEST_TEXT } from '../results/meter.ts';
import { cellSentence } from '../results/sentences.ts';
import type { CompiledBook } from './book.ts';
import { whyRefused } from './fixed.ts';
import { usesOf } from './uses.ts';
import { Failure, NOWHERE, type Value } from './values.ts';

/** What the cells of a compiled workbook hold, as people are shown it. */
export class ShownValues {
  readonly #book: CompiledBook;
  readonly #errors: ErrorReader;

  constructor(book: CompiledBook) {
    this.#book = book;
    const state = (): BookState => book.state;
    this.#errors = new ErrorReader({
      nameOf: (id) => state().sheetName(id) ?? id,
      sheetNames: () => state().sheets.map(({ name }) => name),
      names: () =>
        state()
          .names()
          .map(({ name }) => name),
      formulaAt: (at) => formulaAt(state(), at),
      engineFormula: () => undefined,
      precedents: (at) => this.precedents(at),
      inWords: (says) => says,
    });
  }

  value(at: At): CellValue {
    const slot = this.#book.slotOf(at);
    return slot === undefined ? { kind: 'empty' } : this.shown(this.#book.valueOf(slot), at);
  }

  /** A value of a cell, or of a formula of its own; `held` is what cells hold where it was worked out. */
  shown(
    value: Value,
    at: At | undefined,
    {
      formula,
      held = (slot) => this.#book.valueOf(slot),
    }: { readonly formula?: readonly Token[]; readonly held?: (slot: number) => Value } = {},
  ): CellValue {
    if (!(value instanceof Failure)) return shownValue(value);
    const { type, message, root } = value;
    const place = root === undefined || root === NOWHERE ? undefined : this.#book.placeOf(root);
    const found: FoundError = { type, message, ...(place === undefined ? {} : { root: place }) };
    const error = this.#errors.read(found, {
      raw: (one) => {
        const slot = this.#book.slotOf(one);
        return slot === undefined ? null : held(slot);
      },
      refused: (one) => this.#whyRefused(one),
      cycle: (one) => pathOfCycle(one, (from) => this.precedents(from)),
      ...(at === undefined ? {} : { at }),
      ...(formula === undefined ? {} : { formula }),
    });
    return { kind: 'error', error };
  }

  #whyRefused(at: At): string | undefined {
    const entry = this.#book.entries.get(this.#book.slotOf(at) ?? -1);
    return entry && whyRefused(entry.formula, entry.home, this.#book.state);
  }

  /** Why a formula cannot be read. */
  unreadable(formula: readonly Token[]): string {
    return this.#errors.unreadable(formula);
  }

  precedents(at: At): readonly At[] {
    const entry = this.#book.entries.get(this.#book.slotOf(at) ?? -1);
    if (entry?.compiled === undefined) return [];
    return usesOf(entry.formula, entry.home, this.#book.state);
  }

  /** Cells whose formulas use a cell directly, by address, range or name. */
  dependents(at: At): readonly At[] {
    const slot = this.#book.slotOf(at);
    if (slot === undefined) return [];
    const { users } = this.#book.world.program;
    const found = new Set<number>();
    const ask = (node: number): void => {
      for (let i = users.start[node] ?? 0; i < (users.end[node] ?? 0); i += 1) {
        const user = users.to[i] as number;
        if (found.has(user)) continue;
        found.add(user);
        // A range is no user: those that use it are.
        if (!this.#book.entries.has(user)) ask(user);
      }
    };
    ask(slot);
    return [...found].flatMap((user) => {
      const entry = user === slot ? undefined : this.#book.entries.get(user);
      return (entry && this.#book.placeOf(user)) ?? [];
    });
  }
}

/** A value as the other engine hands it out: numbers rounded to fifteen digits. */
export function shownValue(value: Exclude<Value, Failure>): CellValue {
  if (typeof value === 'number') return { kind: 'number', number: handedOut(value) };
  if (typeof value === 'string') {
    return value.length > LONGEST_TEXT
      ? {
          kind: 'error',
          error: { word: '#VALUE!', says: cellSentence('E18', LONGEST_TEXT) },
        }
      : { kind: 'text', text: value };
  }
  return value === null ? { kind: 'empty' } : { kind: 'logical', logical: value };
}

const DIGITS = 14;

function handedOut(value: number): number {
  // Whole numbers have no digits to lose.
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return value;
  const places = 10 ** (DIGITS - Math.floor(Math.log10(Math.abs(value))));
  const rounded = Math.round(Math.abs(value) * places) / places;
  if (Number.isNaN(rounded)) return 0;
  return value < 0 ? -rounded : rounded;
}
