import type { UnitSystem } from '@kerfbook/wood';
import type { BareUnit, FoundSize, Side } from './sizes-in.ts';

/** Which table a text is read for. */
export type ListKind = 'parts' | 'stock';

/** What reading a text goes by. */
export interface ListContext {
  /** Which table it is read for. */
  readonly kind: ListKind;
  /** Of the workbook. */
  readonly units: UnitSystem;
  /** Signs of the workbook's money, such as `$`. */
  readonly money: string;
  /** Woods that the workbook names already; a list's `walnut` is its `black walnut`. */
  readonly woods?: readonly string[];
  /** What bare numbers are in, where a maker said so. */
  readonly unit?: BareUnit;
}

/** A price as a line says it. */
export interface FoundPrice {
  readonly amount: string;
  /** What it is for: a board, or so much of it; undefined where that is not said. */
  readonly per?: 'board' | 'boardfoot' | 'foot' | 'meter' | 'cubic meter';
}

/** What was found in a line, before it is known what its bare numbers are in. */
export interface FoundLine {
  readonly line: number;
  readonly text: string;
  readonly count?: number;
  readonly name: string;
  readonly material: string;
  readonly grain?: 'length' | 'width' | 'none';
  readonly sizes: readonly FoundSize[];
  /** Which side each of the sizes is of, where heads say so. */
  readonly order?: readonly Side[];
  readonly price?: FoundPrice;
  /** Where it goes, in words, and from where: entries under the heads of the parts table. */
  readonly place?: Readonly<Partial<Record<'place' | 'x' | 'y' | 'z', string>>>;
  readonly isSheet: boolean;
  /** What the size words of a line that has no name are. */
  readonly sizeWords: string;
  /** What ought to be looked at. */
  readonly doubts: readonly string[];
  /** Words and numbers that were not understood. */
  readonly over: readonly string[];
  /** What was understood and has no place in the table. */
  readonly left: readonly string[];
}

/** A line of which nothing is taken, and why. */
export interface UnreadLine {
  /** Counted from 1 in the text. */
  readonly line: number;
  /** The line as it stands. */
  readonly text: string;
  /** A sentence. */
  readonly says: string;
  /** A heading, a sum, a remark: nothing that a maker would miss. */
  readonly expected: boolean;
}

/** A row as it would be added to the table. */
export interface ListRow {
  /** Counted from 1 in the text. */
  readonly line: number;
  /** The line as it stands. */
  readonly text: string;
  /** What would be entered under each head; nothing for what is not said. */
  readonly texts: Readonly<Record<string, string>>;
  /** Whether nothing in it was a guess. */
  readonly sure: boolean;
  /** What was guessed, or is missing, in sentences. */
  readonly says: readonly string[];
}

/** What a text of parts or boards came to. */
export interface ListReading {
  /** In the order of the text. */
  readonly rows: readonly ListRow[];
  /** Every other line that holds anything. */
  readonly unread: readonly UnreadLine[];
  /** What bare numbers are read in; undefined where every size says its unit. */
  readonly bare?: {
    readonly unit: BareUnit;
    /** A sentence. */
    readonly why: string;
    /** The text may mean another unit as well: worth asking about. */
    readonly asks: boolean;
  };
  /** Why nothing was read at all, in a sentence. */
  readonly refused?: string;
}
