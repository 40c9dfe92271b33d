import { parse, tokenize } from '@borgar/fx';
import {
  type At,
  type BookState,
  type CellDocument,
  columnName,
  guardFormula,
  parseAddress,
  toAddresses,
} from '@kerfbook/document';
import { type Inference, infer, type Part } from './infer.ts';
import { ANY, fits, type Meaning, meaningOf, wordsFor } from './measure.ts';

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
 * A formula as its parts; `undefined` where it cannot be read or is more than the engine may be asked,
 * which its own error says.
 */
export function partsOf(a1: string): Part | undefined {
  if (guardFormula(a1) !== undefined) return undefined;
  try {
    return (parse(tokenize(a1)) ?? undefined) as unknown as Part | undefined;
  } catch {
    return undefined;
  }
}

type Taken = WeakMap<CellDocument, { readonly sheet: string; readonly part: Part | undefined }>;

/**
 * What every cell of a workbook is, from the quantities of its cells and the formulas between them
 * (rules M1 to M3). Made anew when cells moved; nothing is worked out before it is asked for.
 */
export class Meanings {
  readonly #now: { readonly state: BookState };
  readonly #known = new Map<string, Inference>();
  /** Formulas that were taken apart, by their cells, which are replaced and never changed. */
  readonly #parts: Taken = new WeakMap();
  /** Formulas that asked what a cell is, by that cell. */
  readonly #readers = new Map<string, Set<string>>();
  readonly #open = new Set<string>();
  /** Cells that wait for what a cell further down comes to. */
  readonly #waiting = new Set<string>();
  /** Where following stopped for being too deep; nothing worked out since then holds. */
  #cut: { readonly at: At; readonly kept: string } | undefined;

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
    if (cell?.formula === undefined) return undefined;
    const { meaning, clashes } = this.#inferred(at, cell.formula);
    const [first] = clashes;
    if (first !== undefined) return this.#clash(at, 'M1', `${first} Check the references.`);
    const { quantity } = cell;
    if (quantity === undefined || meaning.kind !== 'measure') return undefined;
    const wanted = meaningOf(quantity);
    if (wanted.kind !== 'measure' || fits(meaning, wanted)) return undefined;
    return this.#clash(
      at,
      'M2',
      `The cell is for ${wordsFor(wanted)}, and its formula gives ${wordsFor(meaning)}.${hint(meaning, wanted)}`,
    );
  }

  /** What does not go together in the formulas of the workbook's checks, by the check's name. */
  checkClashes(): readonly { readonly name: string; readonly says: string }[] {
    const home = this.#state.sheets[0]?.id ?? '';
    return this.#state.checks.flatMap(({ name, formula }) => {
      const part = partsOf(toAddresses(formula, home, this.#state));
      if (part === undefined) return [];
      let found = this.#read(part, home);
      for (let cut = this.#takeCut(); cut !== undefined; cut = this.#takeCut()) {
        this.#inferred(cut.at, cut.kept);
        found = this.#read(part, home);
      }
      return found.clashes.map((says) => ({ name, says }));
    });
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
  #inferred(at: At, kept: string): Inference {
    const stack = [{ at, kept }];
    for (;;) {
      const top = stack.at(-1) ?? { at, kept };
      const found = this.#followed(top.at, top.kept);
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

  #followed(at: At, kept: string): Inference {
    const key = keyOf(at);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    // A circle has no meaning to find; the engine marks it.
    if (this.#open.has(key) || this.#waiting.has(key)) return NOTHING;
    if (this.#open.size >= DEEPEST) this.#cut ??= { at, kept };
    if (this.#cut !== undefined) return NOTHING;
    this.#open.add(key);
    const part = this.#partsAt(at, kept);
    const found = part === undefined ? NOTHING : this.#read(part, at.sheet, key);
    this.#open.delete(key);
    if (this.#cut === undefined) this.#known.set(key, found);
    return found;
  }

  #takeCut() {
    const cut = this.#cut;
    this.#cut = undefined;
    return cut;
  }

  #partsAt(at: At, kept: string): Part | undefined {
    const cell = this.#state.cell(at);
    const taken = cell === undefined ? undefined : this.#parts.get(cell);
    // Two sheets may hold one cell, and its references mean another row on each.
    if (taken?.sheet === at.sheet) return taken.part;
    const part = partsOf(toAddresses(kept, at.sheet, this.#state));
    if (cell !== undefined) this.#parts.set(cell, { sheet: at.sheet, part });
    return part;
  }

  /** @param reader the cell whose formula it is; a check has none */
  #read(part: Part, home: string, reader?: string): Inference {
    return infer(part, (reference) => {
      const places = this.#placesOf(reference, home);
      if (places === undefined) return [ANY];
      if (reader !== undefined) for (const at of places) this.#note(at, reader);
      return places.map((at) => this.#meaning(at));
    });
  }

  #note(at: At, reader: string): void {
    const key = keyOf(at);
    const readers = this.#readers.get(key);
    if (readers === undefined) this.#readers.set(key, new Set([reader]));
    else readers.add(reader);
  }

  /** The cells of a reference, so many of a range; nothing where it cannot be told. */
  #placesOf(reference: string, home: string): readonly At[] | undefined {
    const named = this.#state.named(reference);
    if (named !== undefined) return [named];
    const bang = reference.lastIndexOf('!');
    const sheet = bang < 0 ? '' : reference.slice(0, bang + 1);
    const [from, to] = reference
      .slice(bang + 1)
      .split(':')
      .map((corner) => parseAddress(`${sheet}${corner}`));
    const id = from?.sheet === undefined ? home : this.#state.sheetId(from.sheet);
    if (from === undefined || id === undefined) return undefined;
    const last = to ?? from;
    const places: At[] = [];
    for (let row = from.row; row <= last.row && places.length < MOST_OF_RANGE; row += 1) {
      for (let column = from.column; column <= last.column; column += 1) {
        places.push({ sheet: id, row, column });
      }
    }
    return places;
  }

  /** A cell is what it says it is; where it says nothing, what its formula comes to. */
  #meaning(at: At): Meaning {
    const cell: CellDocument | undefined = this.#state.cell(at);
    if (cell === undefined) return ANY;
    if (cell.quantity !== undefined) return meaningOf(cell.quantity);
    if (cell.formula !== undefined) return this.#followed(at, cell.formula).meaning;
    return typeof cell.value === 'string' ? { kind: 'words' } : ANY;
  }
}

const NOTHING: Inference = { meaning: ANY, clashes: [] };

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** What usually was meant. */
function hint(got: Meaning, wanted: Meaning): string {
  if (got.kind !== 'measure' || wanted.kind !== 'measure') return '';
  const has = got.dims.percent ?? 0;
  if (has > (wanted.dims.percent ?? 0)) return ' A percentage is divided by 100 first.';
  return ' Check the references, or say what the cell is for.';
}
