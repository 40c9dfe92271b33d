import {
  type At,
  addressOf,
  type BookState,
  type CellDocument,
  cellOf,
  columnName,
  type Formula,
  formulaOf,
  guardFormula,
  type KeptReference,
  type Node,
} from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import { type Around, type Inference, infer, type Reference } from './infer.ts';
import { type Literal, literalsIn } from './literals.ts';
import { ANY, fits, isBare, type Meaning, meaningOf, wordsFor } from './measure.ts';
import { isHundredfold, PERCENT_SLIPS, takesPercent } from './percent.ts';

/** A formula whose numbers do not go together. */
export interface Clash {
  readonly at: At;
  /** With the sheet's name: `Base!B7`. */
  readonly address: string;
  readonly code: 'M1' | 'M2';
  readonly says: string;
}

/** Cells of a range looked at, at the most: a column of one kind shows itself early. */
const MOST_OF_RANGE = 400;

/**
 * How many formulas are followed into each other at a time. A long column of running totals is one
 * formula inside another thousands of times, and a program's own depth is bounded.
 */
const DEEPEST = 20;

/**
 * What every cell of a workbook is, from the quantities of its cells and the formulas between them
 * (rules M1 to M3). Made anew when cells moved; nothing is worked out before it is asked for.
 */
export class Meanings {
  readonly #now: { readonly state: BookState };
  readonly #known = new Map<string, Inference>();
  /** Formulas that asked what a cell is, by that cell. */
  readonly #readers = new Map<string, Set<string>>();
  readonly #open = new Set<string>();
  /** Cells that wait for what a cell further down comes to. */
  readonly #waiting = new Set<string>();
  /** Where following stopped for being too deep; nothing worked out since then holds. */
  #cut: Followed | undefined;

  /** `now` holds the workbook as it is whenever something is asked. */
  constructor(now: { readonly state: BookState }) {
    this.#now = now;
  }

  get #state(): BookState {
    return this.#now.state;
  }

  /** Forgets what cells that were changed come to, and all that was found out from it. */
  forget(cells: readonly At[]): void {
    const gone = cells.map(keyOf);
    for (let key = gone.pop(); key !== undefined; key = gone.pop()) {
      this.#known.delete(key);
      const readers = this.#readers.get(key);
      if (readers === undefined) continue;
      this.#readers.delete(key);
      gone.push(...readers);
    }
  }

  /** What does not go together in a cell's formula, or between it and its cell. */
  clashOf(at: At): Clash | undefined {
    const cell = this.#state.cell(at);
    const formula = cell && formulaOf(cell);
    if (formula === undefined) return undefined;
    const found = this.#inferred({ at, formula });
    const { meaning, clashes, slips } = found;
    const quantity = cell?.quantity;
    const [slip = percentSlip(found, quantity)] = slips;
    if (slip !== undefined) return this.#clash(at, 'M1', slip);
    const [first] = clashes;
    if (first !== undefined) return this.#clash(at, 'M1', `${first} Check the references.`);
    if (quantity === undefined) return undefined;
    const wanted = meaningOf(quantity);
    if (!misses(meaning, wanted)) return undefined;
    return this.#clash(
      at,
      'M2',
      `The cell is for ${wordsFor(wanted)}, and its formula gives ${wordsFor(meaning)}.${hint(meaning, wanted)}`,
    );
  }

  /** What does not go together in the formulas of the workbook's checks, by the check's name. */
  checkClashes(): readonly { readonly name: string; readonly says: string }[] {
    const home = this.#state.sheets[0]?.id ?? '';
    return this.#state.checks.flatMap((check) => {
      const formula = formulaOf(check);
      let found = this.#read(formula, home);
      for (let cut = this.#takeCut(); cut !== undefined; cut = this.#takeCut()) {
        this.#inferred(cut);
        found = this.#read(formula, home);
      }
      return [...found.slips, ...found.clashes].map((says) => ({ name: check.name, says }));
    });
  }

  /** What a formula comes to that stands in no cell yet. */
  comesTo(formula: Formula, home: string): Meaning {
    const { meaning } = this.#read(formula, home);
    const cut = this.#takeCut();
    if (cut === undefined) return meaning;
    this.#inferred(cut);
    return this.comesTo(formula, home);
  }

  /** What the numbers typed in a formula stand for, in a cell of a quantity. */
  literals(formula: Formula, home: string, quantity?: Quantity): ReadonlyMap<Node, Literal> {
    const { root } = formula;
    if (root === undefined) return new Map();
    const around = this.#around(home, undefined);
    const found = literalsIn(root, around, quantity);
    return this.#takeCut() === undefined ? found : literalsIn(root, around, quantity);
  }

  /** Every clash of the workbook's cells, in sheet order. */
  clashes(): readonly Clash[] {
    return this.#state.sheets.flatMap((sheet) =>
      sheet.rows.flatMap((line, row) =>
        [...line.cells.keys()]
          .map((id) => sheet.columnIndex(id) ?? 0)
          .sort((a, b) => a - b)
          .flatMap((column) => this.clashOf({ sheet: sheet.id, row, column }) ?? []),
      ),
    );
  }

  #clash(at: At, code: Clash['code'], says: string): Clash {
    const name = this.#state.sheetName(at.sheet) ?? '';
    return { at, address: `${name}!${columnName(at.column)}${at.row + 1}`, code, says };
  }

  /** What a cell's formula comes to, however many formulas it rests on. */
  #inferred(asked: Followed): Inference {
    const stack = [asked];
    for (;;) {
      const top = stack.at(-1) ?? asked;
      const found = this.#followed(top);
      const cut = this.#takeCut();
      if (cut !== undefined) {
        this.#waiting.add(keyOf(top.at));
        stack.push(cut);
        continue;
      }
      stack.pop();
      const before = stack.at(-1);
      if (before === undefined) return found;
      this.#waiting.delete(keyOf(before.at));
    }
  }

  #followed({ at, formula }: Followed): Inference {
    const key = keyOf(at);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    // A circle has no meaning to find; the engine marks it.
    if (this.#open.has(key) || this.#waiting.has(key)) return NOTHING;
    if (this.#open.size >= DEEPEST) this.#cut ??= { at, formula };
    if (this.#cut !== undefined) return NOTHING;
    this.#open.add(key);
    const found = this.#read(formula, at.sheet, key);
    this.#open.delete(key);
    if (this.#cut === undefined) this.#known.set(key, found);
    return found;
  }

  #takeCut() {
    const cut = this.#cut;
    this.#cut = undefined;
    return cut;
  }

  /**
   * Nothing where it cannot be read or is more than an engine may be asked, which its own error says.
   * @param reader the cell whose formula it is; a check has none
   */
  #read({ root, tokens }: Formula, home: string, reader?: string): Inference {
    if (root === undefined || guardFormula(tokens) !== undefined) return NOTHING;
    return infer(root, this.#around(home, reader));
  }

  #around(home: string, reader: string | undefined): Around {
    return {
      cells: (reference) => {
        const places = this.#placesOf(reference, home);
        if (places === undefined) return [ANY];
        if (reader !== undefined) for (const at of places) this.#note(at, reader);
        return places.map((at) => this.#meaning(at));
      },
      written: (reference) => this.#written(reference, home),
    };
  }

  #note(at: At, reader: string): void {
    const key = keyOf(at);
    const readers = this.#readers.get(key);
    if (readers === undefined) this.#readers.set(key, new Set([reader]));
    else readers.add(reader);
  }

  /** The cells of a reference, so many of a range; nothing where it cannot be told. */
  #placesOf(reference: Reference, home: string): readonly At[] | undefined {
    if (reference.kind === 'lost') return undefined;
    if (reference.kind === 'reference') return this.#placesIn(reference.to, home);
    const named = this.#state.named(reference.name);
    return named && [named];
  }

  #placesIn(
    { sheet: written, from, to = from }: KeptReference,
    home: string,
  ): readonly At[] | undefined {
    const sheet = written ?? home;
    const [first, last] = [cellOf(from, sheet, this.#state), cellOf(to, sheet, this.#state)];
    if (first === undefined || last === undefined) return undefined;
    const places: At[] = [];
    for (let row = first.row; row <= last.row && places.length < MOST_OF_RANGE; row += 1) {
      for (let column = first.column; column <= last.column; column += 1) {
        places.push({ sheet, row, column });
      }
    }
    return places;
  }

  #written(reference: Reference, home: string): string {
    if (reference.kind === 'name') return reference.name;
    if (reference.kind === 'lost') return reference.text;
    return addressOf(reference.to, home, this.#state) ?? '#REF!';
  }

  /** A cell is what it says it is; where it says nothing, what its formula comes to. */
  #meaning(at: At): Meaning {
    const cell: CellDocument | undefined = this.#state.cell(at);
    if (cell === undefined) return ANY;
    if (cell.quantity !== undefined) return meaningOf(cell.quantity);
    const formula = formulaOf(cell);
    if (formula !== undefined) return this.#followed({ at, formula }).meaning;
    return typeof cell.value === 'string' ? { kind: 'words' } : ANY;
  }
}

/** A cell with its formula. */
interface Followed {
  readonly at: At;
  readonly formula: Formula;
}

const NOTHING: Inference = { meaning: ANY, clashes: [], slips: [], percents: [] };

/** What is to be written where a formula's own result shows that a percentage was taken as it is. */
function percentSlip(
  { meaning, percents }: Inference,
  quantity: Quantity | undefined,
): string | undefined {
  if (quantity !== undefined && takesPercent(quantity)) {
    const isSaid = meaning.kind === 'any' && meaning.percent === true;
    return isSaid && meaning.literal !== undefined
      ? PERCENT_SLIPS.literal('this cell takes', meaning.literal)
      : undefined;
  }
  const [name] = percents;
  if (name === undefined || !isHundredfold(meaning)) return undefined;
  return PERCENT_SLIPS.factor(name);
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** Whether a cell is for another kind of number than its formula gives. */
function misses(meaning: Meaning, wanted: Meaning): boolean {
  if (meaning.kind === 'measure') {
    if (wanted.kind === 'date') return !isBare(meaning);
    return wanted.kind === 'measure' && !fits(meaning, wanted);
  }
  return meaning.kind === 'date' && wanted.kind === 'measure' && !isBare(wanted);
}

/** What usually was meant. */
function hint(got: Meaning, wanted: Meaning): string {
  if (got.kind !== 'measure' || wanted.kind !== 'measure') return '';
  const has = got.dims.percent ?? 0;
  if (has > (wanted.dims.percent ?? 0)) return ' A percentage is divided by 100 first.';
  return ' Check the references, or say what the cell is for.';
}
