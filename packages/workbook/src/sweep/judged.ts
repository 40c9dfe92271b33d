import { type At, usesName } from '@kerfbook/document';
import type { CompiledBook } from '../compiled/book.ts';
import { NODE } from '../compiled/program.ts';
import { failureOf, type Value } from '../compiled/values.ts';
import { readsWhole } from '../compiled/whole.ts';
import type { FoundError } from '../results/errors.ts';

/** The engine that works out what is not compiled, and knows what formulas use. */
export interface Judge {
  readonly overBudget: boolean;
  exact(at: At): number | string | boolean | null | FoundError;
  precedents(at: At): readonly At[];
}

/** More cells than this are not told one by one: whoever uses them may use any. */
const MANY = 2_000;

/** Gives what is not compiled in a workbook the values that another engine has for it. */
export function leaveTo(book: CompiledBook, judge: Judge): void {
  new Leaving(book, judge).leave();
}

class Leaving {
  readonly #book: CompiledBook;
  readonly #judge: Judge;
  /** Cells that hold several values. */
  readonly #several = new Set<number>();

  constructor(book: CompiledBook, judge: Judge) {
    this.#book = book;
    this.#judge = judge;
  }

  leave(): void {
    const { entries, left, world } = this.#book;
    if (this.#judge.overBudget) {
      for (const slot of entries.keys()) this.#leave(slot, 'the size of all formulas');
    } else for (const slot of [...left]) this.#leave(slot, entries.get(slot)?.left ?? '');
    // Results of one formula may lie on cells that have none of their own.
    for (let i = 0; i < world.blanks.length && left.size > 0; i += 1) {
      const slot = world.blanks[i] as number;
      const at = this.#book.placeOf(slot);
      if (at === undefined || entries.has(slot) || this.#judge.exact(at) === null) continue;
      this.#leave(slot, 'results that spread');
    }
    // They may lie past the end of their sheet too, where whole columns and rows go on.
    if (left.size > 0) {
      for (const { slot, formula } of [...entries.values()]) {
        if (formula.root !== undefined && readsWhole(formula.root) && !left.has(slot))
          this.#leave(slot, 'a whole column or row');
      }
    }
    this.#leaveRanges();
    this.#book.settle();
    while (this.#leaveLoops()) this.#book.settle();
    this.#book.goOn();
  }

  /**
   * A loop through what is left is for the engine that knows what lies on it: results without room, say,
   * are no loop. Answers whether there was one.
   */
  #leaveLoops(): boolean {
    const { entries, left, world } = this.#book;
    const { loop } = world.program;
    const judged = new Set([...left].map((slot) => loop[slot] as number));
    judged.delete(0);
    const names = this.#namesIn(judged);
    const found = [...entries.values()].filter(
      ({ slot, formula }) =>
        !left.has(slot) &&
        (judged.has(loop[slot] as number) || names.some((name) => usesName(formula, name))),
    );
    for (const { slot } of found) this.#leave(slot, 'a loop');
    return found.length > 0;
  }

  /** Names whose cells lie in loops with formulas that use them: to the other engine they are part of those. */
  #namesIn(loops: ReadonlySet<number>): readonly string[] {
    const { entries, state, world } = this.#book;
    const { loop } = world.program;
    return [...state.homes].flatMap(([name, home]) => {
      const number = world.places.column(home.sheet, home.column)?.number;
      const node = world.places.line(home.sheet, home.row)?.nodes[number ?? -1];
      const of = node === undefined ? 0 : (loop[node] as number);
      if (!loops.has(of)) return [];
      const isUsed = [...entries.values()].some(
        ({ slot, formula }) => loop[slot] === of && usesName(formula, name),
      );
      return isUsed ? name : [];
    });
  }

  #leave(slot: number, word: string): void {
    const at = this.#book.placeOf(slot);
    if (at !== undefined) this.#book.leave(slot, word, this.#valueOf(at, slot), this.#usesOf(at));
  }

  /** What another engine's formula uses; every value there is where it cannot be told. */
  #usesOf(at: At): readonly number[] {
    const used = this.#judge.precedents(at);
    if (used.length < MANY) {
      return used.flatMap((one) => this.#book.world.usedAt(one) ?? []);
    }
    const { program } = this.#book.world;
    return Array.from({ length: program.count }, (_, node) => node).filter(
      (node) => program.kind[node] === NODE.cell && !this.#book.entries.has(node),
    );
  }

  #valueOf(at: At, slot: number): Value {
    const value = this.#judge.exact(at);
    if (typeof value !== 'object' || value === null) return value;
    if (value.range) this.#several.add(slot);
    return failureOf(value, (root) => this.#book.world.usedAt(root));
  }

  /** Where a cell holds several values, whoever uses it is left to the engine that sees them. */
  #leaveRanges(): void {
    for (let before = -1; before < this.#several.size; ) {
      before = this.#several.size;
      if (before === 0) return;
      for (const { slot, compiled } of [...this.#book.entries.values()]) {
        if (compiled !== true || !this.#usesSeveral(slot)) continue;
        this.#leave(slot, 'a range');
      }
    }
  }

  /** Whether a formula uses a cell that holds several values, by itself or in a range. */
  #usesSeveral(slot: number): boolean {
    const { kind, uses } = this.#book.world.program;
    const listed = (node: number): Int32Array =>
      uses.to.subarray(uses.start[node] ?? 0, uses.end[node] ?? 0);
    return listed(slot).some(
      (node) =>
        this.#several.has(node) ||
        (kind[node] === NODE.range && listed(node).some((cell) => this.#several.has(cell))),
    );
  }
}
