import type { At, CellDocument, Scalar } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import { givenCell, refusedEntry } from '../book/held.ts';
import type { CompiledBook } from '../compiled/book.ts';
import { Follower } from '../compiled/follower.ts';
import { between } from '../compiled/program.ts';
import { type ShownValues, shownValue } from '../compiled/shown-values.ts';
import { Failure, failureOf, NOWHERE, refusedAt, type Value } from '../compiled/values.ts';
import type { Calculator } from '../follow/build.ts';
import type { Other } from './other.ts';

/** From some inputs of a workbook to some results, again and again; the workbook stays as it is. */
export interface Slice {
  /** Cells on the way that are worked out by the other engine: each run waits for it. */
  readonly left: readonly At[];
  /** The results for other values of the inputs, in the order in which both were asked for. */
  run(values: readonly (Scalar | null)[]): readonly CellValue[];
  /** Gives the inputs other values, and answers with the cells that changed on the way to the results. */
  follow(values: readonly (Scalar | null)[]): readonly At[];
  /** The same as `run` for many sets of values, one at a time: whoever asks may stop after each. */
  each(sets: Iterable<readonly (Scalar | null)[]>): Generator<readonly CellValue[], void>;
  /** Gives free what was built for cells that are left. */
  destroy(): void;
}

/** What a slice needs of the workbook it was made of. */
export interface SliceSources {
  readonly book: CompiledBook;
  readonly shown: ShownValues;
  /** The other engine, where cells are left to it. */
  readonly calculator: Calculator | undefined;
  /** The other engine once more, with the same workbook; asked for where cells are left to it. */
  another(): Other;
}

/** @throws RangeError where an input is not there or holds a formula */
export function sliceOf(
  sources: SliceSources,
  inputs: readonly At[],
  results: readonly At[],
): Slice {
  return new SliceOfBook(sources, inputs, results);
}

interface Result {
  readonly at: At;
  readonly slot: number | undefined;
  /** What it was when it was shown last, and how: most results stay what they are. */
  value?: Value;
  shown?: CellValue;
}

class SliceOfBook implements Slice {
  readonly left: readonly At[];
  readonly #sources: SliceSources;
  readonly #inputs: readonly At[];
  /** What is said of the inputs that do not take whatever they are given. */
  readonly #cells: readonly (CellDocument | undefined)[];
  readonly #inputSlots: readonly (number | undefined)[];
  readonly #results: readonly Result[];
  readonly #leftSlots: readonly { readonly slot: number; readonly at: At }[];
  readonly #follower: Follower;
  #other: Other | undefined;

  constructor(sources: SliceSources, inputs: readonly At[], results: readonly At[]) {
    const { book } = sources;
    const { program, frame } = book.world;
    const slotOf = (at: At): number | undefined => book.slotOf(at);
    this.#sources = sources;
    this.#inputs = inputs;
    this.#cells = inputs.map((at) => traitsOf(book.state.cell(at)));
    this.#results = results.map((at) => ({ at, slot: slotOf(at) }));
    this.#inputSlots = inputs.map((at) => {
      const slot = slotOf(at);
      if (slot !== undefined && book.entries.has(slot))
        throw new RangeError('an input of a slice holds a formula');
      return slot;
    });
    const known = (slot: number | undefined): slot is number => slot !== undefined;
    const within = between(
      program,
      this.#inputSlots.filter(known),
      results.map(slotOf).filter(known),
    );
    this.#leftSlots = book.leftOut().filter(({ slot }) => within[slot] === 1);
    this.left = this.#leftSlots.map(({ at }) => at);
    this.#follower = new Follower(program, frame.copy(), within);
  }

  follow(values: readonly (Scalar | null)[]): readonly At[] {
    const { book } = this.#sources;
    const set = this.#set(values);
    const followed = this.#follower.follow();
    const places = new Array<At>(set.length + followed.length);
    for (const [i, slot] of set.entries()) places[i] = book.placeOf(slot) as At;
    for (let i = 0; i < followed.length; i += 1) {
      places[set.length + i] = book.placeOf(followed[i] as number) as At;
    }
    return places;
  }

  run(values: readonly (Scalar | null)[]): readonly CellValue[] {
    this.#set(values);
    this.#follower.follow();
    return this.#results.map((result) => this.#resultOf(result, values));
  }

  /** Sets the inputs, and what the other engine makes of them; the slots that changed. */
  #set(values: readonly (Scalar | null)[]): readonly number[] {
    const follower = this.#follower;
    const changed: number[] = [];
    for (let i = 0; i < this.#inputSlots.length; i += 1) {
      const slot = this.#inputSlots[i];
      if (slot === undefined) continue;
      if (follower.set(slot, this.#taken(i, slot, values[i] ?? null))) changed.push(slot);
    }
    if (this.#leftSlots.length > 0) changed.push(...this.#askOther(values));
    return changed;
  }

  /** What an input becomes: an error where its cell does not take the value (rule N4). */
  #taken(input: number, slot: number, value: Scalar | null): Value {
    const cell = this.#cells[input];
    if (value === null || cell === undefined) return value;
    const refused = refusedEntry(givenCell(cell, value), this.#sources.book.state.head);
    return refused === undefined ? value : refusedAt(slot, refused);
  }

  *each(sets: Iterable<readonly (Scalar | null)[]>): Generator<readonly CellValue[], void> {
    for (const values of sets) yield this.run(values);
  }

  destroy(): void {
    this.#other?.destroy();
    this.#other = undefined;
  }

  /** Cells that are left have the value that the other engine gives them for these inputs. */
  #askOther(values: readonly (Scalar | null)[]): readonly number[] {
    this.#other ??= this.#sources.another();
    const other = this.#other.set(this.#inputs, values);
    return this.#leftSlots.flatMap(({ slot, at }) => {
      const value = other.exact(at);
      const differs = this.#follower.set(
        slot,
        typeof value === 'object' && value !== null
          ? failureOf(value, (root) => this.#sources.book.slotOf(root))
          : value,
      );
      return differs ? slot : [];
    });
  }

  #resultOf(result: Result, values: readonly (Scalar | null)[]): CellValue {
    const { at, slot } = result;
    if (slot === undefined) {
      const input = this.#inputs.findIndex((one) => isSame(one, at));
      if (input < 0) return this.#sources.calculator?.value(at) ?? { kind: 'empty' };
      return this.#shown(values[input] ?? null, at);
    }
    const value = this.#follower.frame.get(slot);
    // The sentence of an error quotes what other cells hold.
    if (result.shown === undefined || result.value !== value || value instanceof Failure) {
      result.shown = this.#shown(value, at);
      result.value = value;
    }
    return result.shown;
  }

  #shown(value: Value, at: At): CellValue {
    if (!(value instanceof Failure)) return shownValue(value);
    const { book, shown, calculator } = this.#sources;
    const held = (slot: number): Value => this.#follower.frame.get(slot);
    if (calculator === undefined) return shown.shown(value, at, { held });
    const root =
      value.root === undefined || value.root === NOWHERE ? undefined : book.placeOf(value.root);
    const found = {
      type: value.type,
      message: value.message,
      ...(root === undefined ? {} : { root }),
    };
    const raw = (one: At): unknown => {
      const slot = book.slotOf(one);
      return slot === undefined ? null : held(slot);
    };
    return { kind: 'error', error: calculator.errorOf(found, at, undefined, raw) };
  }
}

/** What decides which values an input takes; nothing where it takes any. */
function traitsOf(cell: CellDocument | undefined): CellDocument | undefined {
  if (cell === undefined) return undefined;
  const { quantity, show, allow } = cell;
  if (quantity === undefined && allow === undefined) return undefined;
  return {
    ...(quantity === undefined ? {} : { quantity }),
    ...(show === undefined ? {} : { show }),
    ...(allow === undefined ? {} : { allow }),
  };
}

const isSame = (a: At, b: At): boolean =>
  a.sheet === b.sheet && a.row === b.row && a.column === b.column;
