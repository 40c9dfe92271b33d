import { parse, tokenize } from '@borgar/fx';
import type { BookState } from '../book/state.ts';
import type { CellDocument } from '../document/schema.ts';
import type { At } from '../edit/types.ts';
import { columnName, parseAddress } from '../formula/address.ts';
import { toAddresses } from '../formula/references.ts';
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

/** A formula as its parts; `undefined` where it cannot be read, which its own error says. */
export function partsOf(a1: string): Part | undefined {
  try {
    return parse(tokenize(a1)) as unknown as Part;
  } catch {
    return undefined;
  }
}

/**
 * What every cell of a workbook is, from the quantities of its cells and the formulas between them
 * (rules M1 to M3). Made anew after an edit; nothing is worked out before it is asked for.
 */
export class Meanings {
  readonly #state: BookState;
  readonly #known = new Map<string, Inference>();
  readonly #open = new Set<string>();

  constructor(state: BookState) {
    this.#state = state;
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
      const { clashes } = infer(part, (reference) => this.#meanings(reference, home));
      return clashes.map((says) => ({ name, says }));
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

  #inferred(at: At, kept: string): Inference {
    const key = `${at.sheet} ${at.row} ${at.column}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    // A circle has no meaning to find; the engine marks it.
    if (this.#open.has(key)) return { meaning: ANY, clashes: [] };
    this.#open.add(key);
    const part = partsOf(toAddresses(kept, at.sheet, this.#state));
    const found =
      part === undefined
        ? { meaning: ANY, clashes: [] }
        : infer(part, (reference) => this.#meanings(reference, at.sheet));
    this.#open.delete(key);
    this.#known.set(key, found);
    return found;
  }

  #meanings(reference: string, home: string): readonly Meaning[] {
    const named = this.#state.named(reference);
    if (named !== undefined) return [this.#meaning(named)];
    const bang = reference.lastIndexOf('!');
    const sheet = bang < 0 ? '' : reference.slice(0, bang + 1);
    const [from, to] = reference
      .slice(bang + 1)
      .split(':')
      .map((corner) => parseAddress(`${sheet}${corner}`));
    const id = from?.sheet === undefined ? home : this.#state.sheetId(from.sheet);
    if (from === undefined || id === undefined) return [ANY];
    const last = to ?? from;
    const places: At[] = [];
    for (let row = from.row; row <= last.row && places.length < MOST_OF_RANGE; row += 1) {
      for (let column = from.column; column <= last.column; column += 1) {
        places.push({ sheet: id, row, column });
      }
    }
    return places.map((at) => this.#meaning(at));
  }

  /** A cell is what it says it is; where it says nothing, what its formula comes to. */
  #meaning(at: At): Meaning {
    const cell: CellDocument | undefined = this.#state.cell(at);
    if (cell === undefined) return ANY;
    if (cell.quantity !== undefined) return meaningOf(cell.quantity);
    if (cell.formula !== undefined) return this.#inferred(at, cell.formula).meaning;
    return typeof cell.value === 'string' ? { kind: 'words' } : ANY;
  }
}

/** What usually was meant. */
function hint(got: Meaning, wanted: Meaning): string {
  if (got.kind !== 'measure' || wanted.kind !== 'measure') return '';
  const has = got.dims.percent ?? 0;
  if (has > (wanted.dims.percent ?? 0)) return ' A percentage is divided by 100 first.';
  return ' Check the references, or say what the cell is for.';
}
