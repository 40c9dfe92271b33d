import { type KeptReference, nodesOf, readFormula, withIds } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import type { Around, Rectangle } from './around.ts';
import type { CompiledBook } from './book.ts';
import { workOf } from './compile.ts';
import { refusedFormula, whyRefused } from './fixed.ts';
import { NotCompiled } from './not-compiled.ts';
import { NODE } from './program.ts';
import type { ShownValues } from './shown-values.ts';
import { NOWHERE, type Value } from './values.ts';

/**
 * Works formulas out as if they stood in a workbook, which stays as it is: what they use that has no node
 * yet is empty, and the numbers in them have nodes that are used again and again.
 */
export class Trial {
  readonly #book: CompiledBook;
  readonly #shown: ShownValues;
  #blank: number | undefined;
  readonly #numbers: number[] = [];
  #used = 0;

  constructor(book: CompiledBook, shown: ShownValues) {
    this.#book = book;
    this.#shown = shown;
  }

  /** What a formula comes to on a sheet; nothing where it is not compiled. */
  evaluate(a1: string, sheet: string): CellValue | undefined {
    const { world, state } = this.#book;
    const typed = readFormula(a1);
    const formula = withIds(typed, sheet, state);
    const refused = refusedFormula(formula, sheet, state, NOWHERE);
    if (refused !== undefined) {
      const says = whyRefused(formula, sheet, state) ?? this.#shown.unreadable(typed.tokens);
      return { kind: 'error', error: { word: '#ERROR!', says } };
    }
    const { root } = formula;
    // What is not there is no error to the other engine: it is beyond the sheet, and empty.
    if (root === undefined || [...nodesOf(root)].some(({ kind }) => kind === 'lost')) {
      return undefined;
    }
    this.#used = 0;
    try {
      const work = workOf(root, this.#around(sheet), world.own(formula, sheet));
      this.#book.settle();
      const value = work(world.frame);
      return this.#shown.shown(typeof value === 'object' ? (value ?? 0) : value, undefined, {
        formula: typed.tokens,
      });
    } catch (reason) {
      if (reason instanceof NotCompiled) return undefined;
      throw reason;
    }
  }

  #around(home: string): Around {
    const { world, state } = this.#book;
    const nodeOf = (sheet: string, { row = '', column = '' }: KeptReference['from']) => {
      const [line, of] = [world.places.line(sheet, row), world.places.column(sheet, column)];
      if (line === undefined || of === undefined) return undefined;
      return line.nodes[of.number] ?? this.#empty();
    };
    return {
      system: state.head.units,
      runs: new Map(),
      cell: ({ sheet = home, from }) => nodeOf(sheet, from),
      range: (reference) => this.#range(reference, home),
      named: (name) => {
        const at = state.named(name);
        return at === undefined ? undefined : (this.#book.slotOf(at) ?? this.#empty());
      },
      constant: (value) => this.#number(value),
      shared: () => undefined,
      inLoop: (name) => world.around(home).inLoop(name),
    };
  }

  #range({ sheet = '', from, to }: KeptReference, home: string): Rectangle | 'gone' | 'unfit' {
    const { places } = this.#book.world;
    const on = sheet || home;
    if (to === undefined) return 'unfit';
    const corners = places.corners(on, from, to);
    if (corners === undefined) return 'gone';
    const { top, bottom, left, right } = corners;
    const [width, height] = [right.index - left.index + 1, bottom.index - top.index + 1];
    const cells = Int32Array.from({ length: width * height }, (_, i) => {
      const [row, column] = [top.index + Math.floor(i / width), left.index + (i % width)];
      return places.nodeAt({ sheet: on, row, column }) ?? this.#empty();
    });
    return { key: `${on} ${top.id} ${left.id} ${bottom.id} ${right.id}`, cells, width };
  }

  #empty(): number {
    this.#blank ??= this.#book.world.add(NODE.inner);
    return this.#blank;
  }

  #number(value: number): number {
    const { world } = this.#book;
    const node = this.#numbers[this.#used] ?? world.add(NODE.inner);
    this.#numbers[this.#used] = node;
    this.#used += 1;
    world.frame.put(node, value satisfies Value);
    return node;
  }
}
