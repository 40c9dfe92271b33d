import type { At, BookDocument, Scalar } from '@kerfbook/document';
import {
  buildScene,
  cutList,
  drawViews,
  type Part,
  readParts,
  type ShopSource,
  shopPlan,
} from '@kerfbook/drawing';
import { type CellValue, type CheckState, Workbook } from '@kerfbook/workbook';
import { CompiledDocument, checkStanding } from '@kerfbook/workbook/sweep';
import { type Drawn, domainOf } from './draws.ts';
import { refusalsOf } from './judge-table.ts';
import type { Refusal } from './refusal.ts';
import {
  cellsOf,
  checksOf,
  type Placed,
  type Stated,
  type StatedCut,
  type StatedPiece,
  statedOf,
  type ValueAt,
} from './stated.ts';

const MM = 25.4;

/** Values of inputs by their place in {@link Trial.drawn}. */
export type Values = readonly (Scalar | null)[];

/** What came of one set of inputs. */
export interface Outcome {
  /** Checks that do not pass, by their names. */
  readonly fails: readonly string[];
  /** How each check stands, in the order of the workbook. */
  readonly standings: readonly CheckState['state'][];
  /** What each cell comes to. */
  readonly valueAt: ValueAt;
}

/** A template whose inputs are drawn again and again. */
export class Trial {
  readonly document: BookDocument;
  /** Every input that has a range, a list, or a place in the stock table. */
  readonly drawn: readonly Drawn[];
  /** As the template ships. */
  readonly shipped: Values;
  readonly #cells: readonly Placed[];
  readonly #run: (values: Values) => readonly CellValue[];
  readonly #places: readonly At[];
  #book: Workbook | undefined;

  constructor(document: BookDocument) {
    this.document = document;
    this.#cells = cellsOf(document);
    this.drawn = this.#cells.flatMap((placed) => {
      const domain =
        placed.cell.role === 'input' ? domainOf(placed, this.#inStock(placed)?.heading) : undefined;
      return domain === undefined ? [] : [{ placed, domain }];
    });
    this.shipped = this.drawn.map(({ placed: { cell } }) => cell.value ?? null);
    this.#places = [...this.#cells.map(({ at }) => at), ...checksOf(document)];
    const slice = CompiledDocument.of(document).slice(
      this.drawn.map(({ placed: { at } }) => at),
      this.#places,
    );
    this.#run = (values) => slice.run(values);
  }

  /** Where an input stands in {@link drawn}. @throws Error where there is none by that name */
  indexOf(name: string): number {
    const index = this.drawn.findIndex(({ placed: { cell } }) => cell.name === name);
    if (index < 0) throw new Error(`no input ${name}`);
    return index;
  }

  /** What people call an input: its name, or its line of stock and the heading. */
  nameOf(index: number): string {
    const placed = this.drawn[index]?.placed;
    if (placed === undefined) throw new RangeError(`no input ${index}`);
    if (placed.cell.name !== undefined) return placed.cell.name;
    const { stock, heading } = this.#inStock(placed) ?? {};
    const { sheet, row, column } = placed.at;
    return heading === undefined ? `${sheet}!${row}:${column}` : `${stock}: ${heading}`;
  }

  /** The shipped values with some changed, by their names. */
  with(changes: Readonly<Record<string, Scalar | null>>): Values {
    const values = [...this.shipped];
    for (const [name, value] of Object.entries(changes)) {
      const index = this.drawn.findIndex((_, i) => this.nameOf(i) === name);
      if (index < 0) throw new Error(`no input ${name}`);
      values[index] = value;
    }
    return values;
  }

  /** Works the workbook out. */
  outcome(values: Values): Outcome {
    const found = this.#run(values);
    const known = new Map(this.#places.map((at, i) => [keyOf(at), found[i] as CellValue]));
    const { checks } = this.document;
    const first = this.#cells.length;
    const standings = checks.map((check, i) => checkStanding(found[first + i] as CellValue, check));
    return {
      fails: checks.filter((_, i) => standings[i] !== 'pass').map(({ name }) => name),
      standings,
      valueAt: (at) => known.get(keyOf(at)) ?? { kind: 'empty' },
    };
  }

  /** What the workbook says, with its cut list; with the plan too, which takes long. */
  stated({ valueAt }: Outcome, planned = false): Stated {
    const source = this.#source(valueAt);
    const { parts } = readParts(source);
    const { problems, clashes } = drawViews(source, { views: [], format: String, clashes: true });
    const { overlaps = [], floating = [] } = clashes ?? {};
    const stated = {
      ...statedOf(this.document, valueAt),
      pieces: piecesOf(parts),
      cuts: cutsOf(parts),
      troubles: [...problems, ...overlaps, ...floating].map(({ says }) => says),
    };
    if (!planned) return stated;
    const { unread, unplanned, missing } = shopPlan(source, 'cell');
    return {
      ...stated,
      leftOut: [...unread, ...unplanned, ...missing].map(({ says }) => says),
    };
  }

  /** Why the table of an outcome cannot be built. */
  judged(outcome: Outcome, planned = false): readonly Refusal[] {
    return refusalsOf(this.stated(outcome, planned));
  }

  /** Why the table of these inputs cannot be built. */
  refusals(values: Values, planned = false): readonly Refusal[] {
    return this.judged(this.outcome(values), planned);
  }

  #inStock({ at }: Placed): { readonly stock: string; readonly heading: string } | undefined {
    const isOn = (table: (typeof this.document.tables)[number]): boolean =>
      table.kind === 'stock' && table.sheet === at.sheet;
    const table = this.document.tables.find(isOn);
    const sheet = this.document.sheets.find(({ id }) => id === at.sheet);
    if (table === undefined || sheet === undefined) return undefined;
    const first = sheet.rows.findIndex(({ id }) => id === table.header);
    const heading = sheet.rows[first]?.cells?.[sheet.columns[at.column]?.id ?? '']?.value;
    const named = sheet.rows[at.row]?.cells?.[sheet.columns[0]?.id ?? ''];
    const isNamed = named?.value !== undefined || named?.formula !== undefined;
    if (typeof heading !== 'string' || at.row <= first || !isNamed) return undefined;
    return { stock: String(named.value ?? `stock ${at.row - first}`), heading };
  }

  /** The workbook as it is open, but for what its cells come to. */
  #source(value: ValueAt): ShopSource {
    this.#book ??= Workbook.open(this.document);
    const book = this.#book;
    return {
      units: book.units,
      currency: book.currency,
      tables: () => book.tables(),
      sheet: (id) => book.sheet(id),
      value,
      named: (name) => {
        const cell = book.named(name);
        return cell === undefined ? undefined : { ...cell, value: value(cell.at) };
      },
    };
  }
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

const piecesOf = (parts: readonly Part[]): readonly StatedPiece[] =>
  buildScene(parts).pieces.map(
    ({ part, from, to }): StatedPiece => ({
      name: part.name,
      from: [from.x / MM, from.y / MM, from.z / MM],
      size: [(to.x - from.x) / MM, (to.y - from.y) / MM, (to.z - from.z) / MM],
    }),
  );

function cutsOf(parts: readonly Part[]): readonly StatedCut[] {
  return cutList(parts).items.map(
    ({ name, count, thickness, width, length }): StatedCut => ({
      name,
      count,
      thickness: thickness / MM,
      width: width / MM,
      length: length / MM,
    }),
  );
}
