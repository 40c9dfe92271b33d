import type { FoundTable, Guess, Shop, TakenIn, ToldIn, ToldOut } from '@kerfbook/interchange';

/** What numbers of a guess are taken for: as guessed, for nothing, or for one of the units that are offered, by its place. */
export type Answer = 'guessed' | 'bare' | number;

/** How a file is to be taken in. */
export interface TakeWishes {
  /** Left out: what the file speaks in. */
  readonly units?: 'us' | 'metric';
  readonly title?: string;
  /** By the place of the guess; those left out are taken as guessed. */
  readonly answers: readonly Answer[];
  /** Which list of parts becomes the parts table; left out: none. */
  readonly parts?: number;
  readonly shop?: Shop;
}

/** What the page asks its worker. */
export type OfficeAsked =
  /** Keeps a file for what is asked next. */
  | { readonly do: 'keep'; readonly bytes: ArrayBuffer; readonly name: string }
  /** What the kept file would become. */
  | { readonly do: 'look'; readonly wishes: TakeWishes }
  /** The same as a workbook. */
  | { readonly do: 'take'; readonly wishes: TakeWishes }
  /** A workbook, by its saved text, as a file of an office program. */
  | {
      readonly do: 'write';
      readonly text: string;
      readonly to: OfficeFormat;
      readonly along?: DrawingAlong;
    };

/** The workbook's drawing for its file: an SVG for ods, a PNG for xlsx, which only a page can make. */
export interface DrawingAlong {
  readonly drawing?: string;
  readonly picture?: Uint8Array<ArrayBuffer>;
}

/** Which files are written: whole workbooks, or one sheet of one, by its id. */
export type OfficeFormat =
  | 'xlsx'
  | 'ods'
  | { readonly csv: string; readonly how: 'values' | 'formulas' };

/** A guess without its cells, of which there may be very many. */
export interface GuessSeen extends Omit<Guess, 'cells'> {
  readonly sheetName: string;
  readonly count: number;
}

/** What a file would become, as far as the page shows it. */
export interface FileSeen {
  readonly title: string;
  readonly units: 'us' | 'metric';
  readonly counts: TakenIn['counts'];
  readonly told: readonly ToldIn[];
  readonly guesses: readonly GuessSeen[];
  readonly parts: readonly Omit<FoundTable, 'rows'>[];
}

/** What the worker answers. */
export type OfficeTold =
  /** It is there: only now does the time count that reading takes. */
  | { readonly is: 'ready' }
  /** How much of what was asked is done, from 0 to 1; whether nothing more is heard of it until it is. */
  | { readonly is: 'onward'; readonly share: number; readonly isHandedOn: boolean }
  | { readonly is: 'seen'; readonly seen: FileSeen }
  | { readonly is: 'taken'; readonly text: string; readonly title: string }
  | {
      readonly is: 'written';
      readonly file: Uint8Array<ArrayBuffer> | string;
      readonly told: readonly ToldOut[];
      readonly formulas?: {
        readonly kept: number;
        readonly writtenOut: number;
        readonly frozen: number;
      };
    }
  /** The file cannot be read, in a sentence. */
  | { readonly is: 'refused'; readonly says: string }
  /** A fault of ours. */
  | { readonly is: 'failed'; readonly says: string };
