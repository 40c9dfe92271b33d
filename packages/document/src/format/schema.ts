import { QUANTITIES } from '@kerfbook/wood';
import * as z from 'zod/mini';
import {
  BACKGROUNDS,
  DOCUMENT_VERSION,
  HIDDEN_FROM_READERS,
  LIMITS,
  TABLE_KINDS,
  TONES,
} from './limits.ts';
import { PROMISED } from './readers.ts';

export { BACKGROUNDS, DOCUMENT_VERSION, HIDDEN_FROM_READERS, LIMITS, TABLE_KINDS, TONES };

/**
 * The saved form of a workbook. `packages/workbook/RULES.md` says what each part promises.
 * Formulas are kept with row and column ids instead of A1 addresses (rule F1).
 */

// Refusals are told in words of our own (`trouble.ts`), which ask zod only for what came: its own words
// would be loaded before the first sheet.
z.config({
  localeError: ({ input }) => `received ${typeof input === 'object' ? 'an object' : String(input)}`,
});

const id = z
  .string()
  .check(z.regex(/^[a-z][a-z0-9]{0,11}$/, 'an id is a letter and up to 11 letters or digits'));
const shortText = z.string().check(z.maxLength(200));
const someText = z.string().check(z.maxLength(200), z.minLength(1));
const longText = z.string().check(z.maxLength(LIMITS.text));
const someLongText = z.string().check(z.maxLength(LIMITS.text), z.minLength(1));
const formula = z.string().check(z.maxLength(LIMITS.kept), z.startsWith('='));
const finite = z.number();

const NO_KEY = 'a key is lower-case letters, digits and hyphens';
const NO_DAY = 'it should be a day of the calendar, year first, such as 2026-03-14';
/** A day of the calendar, `2026-03-14` (ISO 8601). */
const day = z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/, NO_DAY), z.refine(isDay, NO_DAY));

/** A whole number within bounds. */
const whole = (least: number, most: number) => z.int().check(z.minimum(least), z.maximum(most));

const scalarSchema = z.union([finite, longText, z.boolean()]);

const showSchema = z.strictObject({
  /** How a number is written: fractions and feet-inches for lengths, decimals for any number. */
  as: z.exactOptional(z.enum(['fraction', 'feet-inches', 'decimal', 'plain'])),
  /** Unit shown, of the cell's quantity: `ft²`, `gal`, `mm` …; the own unit where left out. */
  unit: z.exactOptional(z.string().check(z.maxLength(12))),
  /** Nearest 1/denominator, for fractions. */
  denominator: z.exactOptional(whole(2, 128)),
  decimals: z.exactOptional(whole(0, 10)),
});

/** SHA-256 of a saved text, in hexadecimal digits (FIPS 180-4). */
const hash = z.string().check(z.regex(/^[0-9a-f]{64}$/, 'a SHA-256 is 64 hexadecimal digits'));

const lineageSchema = z.strictObject({
  /** What the template was called. */
  template: shortText,
  /** Which state of it. */
  revision: z.int().check(z.minimum(1)),
  /** Which template of this device: the key of a built-in one, or the id of one of the maker's own. */
  key: z.exactOptional(z.string().check(z.regex(/^[a-z0-9-]{1,64}$/, NO_KEY))),
  /** SHA-256 of the saved text of that state: the workbook and the template have it in common. */
  base: z.exactOptional(hash),
  /** That text itself, deflated (RFC 1951) and in base64, where a file is to be read elsewhere. */
  text: z.exactOptional(
    z
      .string()
      .check(z.maxLength(LIMITS.carried), z.regex(/^[A-Za-z0-9+/]+={0,2}$/, 'it should be base64')),
  ),
});

const NO_LOGO =
  'a logo is a PNG or JPEG picture as a data URL of at most 32,768 letters, which begins data:image/png;base64, or data:image/jpeg;base64,';
const logo = z
  .string()
  .check(
    z.maxLength(LIMITS.logo, NO_LOGO),
    z.regex(/^data:image\/(?:png|jpeg);base64,[A-Za-z0-9+/]+={0,2}$/, NO_LOGO),
  );

const letterheadSchema = z.strictObject({
  /** What the shop is called. */
  name: z.exactOptional(someText),
  /** Where it is, and how it is reached; a line each. */
  address: z.exactOptional(someLongText),
  /** Its tax number, as its customers need it. */
  tax: z.exactOptional(someText),
  /** Its sign. */
  logo: z.exactOptional(logo),
});

const NO_PHOTO =
  'a photograph is a JPEG or PNG picture as a data URL of at most 327,680 letters, which begins data:image/jpeg;base64, or data:image/png;base64,';

const photoSchema = z.strictObject({
  /** What is seen on it, for whoever does not see it. */
  says: z.exactOptional(someText),
  data: z
    .string()
    .check(
      z.maxLength(LIMITS.photo, NO_PHOTO),
      z.regex(/^data:image\/(?:png|jpeg);base64,[A-Za-z0-9+/]+={0,2}$/, NO_PHOTO),
    ),
});

const language = z
  .string()
  .check(
    z.regex(
      /^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$/,
      'a language is a tag after BCP 47: en, de, pt-BR',
    ),
  );

const guideSchema = z.strictObject({
  /** What the plan is called, where that is not the title of the workbook. */
  title: z.exactOptional(someText),
  /** What readers are told first. */
  before: z.exactOptional(someLongText),
  /** What they are told last. */
  after: z.exactOptional(someLongText),
  /** Whose plan it is and who helped. */
  credits: z.exactOptional(someLongText),
  /** Names of the cells that readers may change, in their order. */
  inputs: z.exactOptional(z.array(someText).check(z.maxLength(LIMITS.opened))),
  hides: z.exactOptional(
    z.array(z.enum(HIDDEN_FROM_READERS)).check(z.maxLength(HIDDEN_FROM_READERS.length)),
  ),
  tone: z.exactOptional(z.enum(TONES)),
  /** What the plan is written in; English where left out. */
  language: z.exactOptional(language),
  /** The second language, whose words are in a table. */
  second: z.exactOptional(language),
  /** The state that was handed out last. */
  published: z.exactOptional(
    z.strictObject({
      number: whole(1, 1_000_000),
      day,
      /** Its saved text, deflated (RFC 1951) and in base64. */
      text: z
        .string()
        .check(
          z.maxLength(LIMITS.carried),
          z.regex(/^[A-Za-z0-9+/]+={0,2}$/, 'it should be base64'),
        ),
    }),
  ),
});

const NO_SPACE = 'a tag is a short word or two without spaces at its ends';
const tag = z.string().check(
  z.minLength(1),
  z.maxLength(LIMITS.tag),
  z.refine((text) => text.trim() === text, NO_SPACE),
);

const styleSchema = z.strictObject({
  bold: z.exactOptional(z.literal(true)),
  italic: z.exactOptional(z.literal(true)),
  align: z.exactOptional(z.enum(['start', 'centre', 'end'])),
  background: z.exactOptional(z.enum(BACKGROUNDS)),
  /** Words are broken over lines at the column's width, and the row is as high as they need. */
  wrap: z.exactOptional(z.literal(true)),
});

const allowSchema = z.strictObject({
  min: z.exactOptional(finite),
  max: z.exactOptional(finite),
  list: z.exactOptional(z.array(longText).check(z.maxLength(500))),
  whole: z.exactOptional(z.boolean()),
  /** Names in the workbook's own table of this kind are allowed beside the list. */
  from: z.exactOptional(z.enum(['woods', 'finishes'])),
});

const entrySchema = z.strictObject({
  value: scalarSchema,
  /** What the maker typed, where it is not simply the value written out. */
  typed: z.exactOptional(longText),
});

/**
 * What a cell held in the other units, kept where turning it back would not give it to the letter (rule N7). It
 * counts only as long as it comes to what the cell holds now.
 */
const otherSchema = z.strictObject({
  value: z.exactOptional(scalarSchema),
  typed: z.exactOptional(longText),
  formula: z.exactOptional(formula),
  override: z.exactOptional(entrySchema),
  show: z.exactOptional(showSchema),
  allow: z.exactOptional(allowSchema),
});

/** A cell: what it holds, what it is and how it looks. Kept by the id of its column. */
export const cellSchema = z.strictObject({
  value: z.exactOptional(scalarSchema),
  typed: z.exactOptional(longText),
  formula: z.exactOptional(formula),
  /** A value typed over a calculated cell; the formula stays and comes back when it is restored. */
  override: z.exactOptional(entrySchema),
  quantity: z.exactOptional(z.enum(QUANTITIES)),
  show: z.exactOptional(showSchema),
  role: z.exactOptional(z.enum(['input', 'calculated', 'heading', 'note'])),
  name: z.exactOptional(z.string().check(z.maxLength(100))),
  remark: z.exactOptional(longText),
  allow: z.exactOptional(allowSchema),
  style: z.exactOptional(styleSchema),
  other: z.exactOptional(otherSchema),
});

/** A column of a sheet. */
export const columnSchema = z.strictObject({
  id,
  /** Out of sight; it goes on calculating. */
  hidden: z.exactOptional(z.literal(true)),
  width: z.exactOptional(whole(16, 2000)),
});

/** A row of a sheet with its cells by column id. */
export const rowSchema = z.strictObject({
  id,
  /** Out of sight; it goes on calculating. */
  hidden: z.exactOptional(z.literal(true)),
  /** How many groups of rows it is in, one inside the other. */
  group: z.exactOptional(whole(1, LIMITS.groups)),
  cells: z.exactOptional(z.record(id, cellSchema)),
});

/** A sheet: its columns and rows in their order. */
export const sheetSchema = z.strictObject({
  id,
  name: z.string().check(z.minLength(1), z.maxLength(LIMITS.sheetName)),
  /** Out of the list of sheets; it goes on calculating. */
  hidden: z.exactOptional(z.literal(true)),
  columns: z.array(columnSchema).check(z.maxLength(LIMITS.columns)),
  rows: z.array(rowSchema).check(z.maxLength(LIMITS.rows)),
  /** How many columns stay in view at the left. */
  frozenColumns: z.exactOptional(whole(1, LIMITS.frozen)),
  /** How many rows stay in view at the top. */
  frozenRows: z.exactOptional(whole(1, LIMITS.frozen)),
});

/** A formula that must be true, and what is said where it is not. */
export const checkSchema = z.strictObject({
  id,
  name: someText,
  /** Sheet beside whose name the check's state is shown. */
  sheet: z.exactOptional(id),
  /** Must be true. */
  formula,
  /** How bad it is when it is not. */
  severity: z.enum(['stop', 'care']),
  /** The sentence to show then; `{name}` stands for a named cell as it is shown. */
  says: someLongText,
  /** Cells that bear its sign while it is not true, as a formula of references. */
  cells: z.exactOptional(formula),
  /** Its formula in the other units, as that of a cell. */
  other: z.exactOptional(formula),
});

/** A header row and the rows under it, with known columns. */
export const tableSchema = z.strictObject({
  id,
  kind: z.enum(TABLE_KINDS),
  sheet: id,
  header: id,
  last: id,
});

/** A whole workbook as it is saved. */
export const bookSchema = z.strictObject({
  kerfbook: z.literal(DOCUMENT_VERSION),
  title: someText,
  about: z.exactOptional(longText),
  /** Whom it is for, as it stands on paper. */
  customer: z.exactOptional(someText),
  /** The shop's own number of the job. */
  job: z.exactOptional(someText),
  /** The day it is promised for. */
  due: z.exactOptional(day),
  /** The day its price was agreed on: from then on the price stands. */
  agreed: z.exactOptional(day),
  /** Which state of the work the paper shows, as the maker counts: `B`, `3`. */
  revision: z.exactOptional(someText),
  /** What is agreed with the customer about paying and delivering. */
  terms: z.exactOptional(someLongText),
  /** Whose work it is, as it stands at the head of a customer's pages. */
  letterhead: z.exactOptional(letterheadSchema),
  /** What is said of it as a plan that others build from. */
  guide: z.exactOptional(guideSchema),
  /** Photographs that its steps show, by their names. */
  photos: z.exactOptional(
    z
      .record(
        z
          .string()
          .check(
            z.regex(
              /^[a-z0-9][a-z0-9-]{0,39}$/,
              'a photograph is named in small letters, digits and hyphens',
            ),
          ),
        photoSchema,
      )
      .check(
        z.refine(
          (photos) => Object.keys(photos).length <= LIMITS.photos,
          `at most ${LIMITS.photos} photographs`,
        ),
      ),
  ),
  units: z.enum(['us', 'metric']),
  currency: z.exactOptional(
    z.string().check(z.regex(/^[A-Z]{3}$/, 'three capital letters after ISO 4217')),
  ),
  licence: z.exactOptional(shortText),
  author: z.exactOptional(shortText),
  /** Only inputs can be changed; left out, everything can. */
  locked: z.exactOptional(z.literal(true)),
  /** What reads cells of this workbook by their names and may rely on them (`KNOWN_NAMES`). */
  promises: z.exactOptional(z.array(z.enum(PROMISED)).check(z.maxLength(PROMISED.length))),
  /** Names of the cells that matter most, in their order: what a change did to them is told first. */
  results: z.exactOptional(z.array(someText).check(z.maxLength(LIMITS.results))),
  /** Words that the maker finds it by. */
  tags: z.exactOptional(z.array(tag).check(z.maxLength(LIMITS.tags))),
  lineage: z.exactOptional(lineageSchema),
  sheets: z.array(sheetSchema).check(z.minLength(1), z.maxLength(LIMITS.sheets)),
  checks: z.array(checkSchema).check(z.maxLength(LIMITS.checks)),
  tables: z.array(tableSchema).check(z.maxLength(LIMITS.tables)),
});

/** What a workbook is but for its sheets, checks and tables. */
export const headSchema = z.omit(bookSchema, { sheets: true, checks: true, tables: true });

/** What a cell can hold: a number in the workbook's own units, words, or yes and no. */
export type Scalar = z.infer<typeof scalarSchema>;
/** How a number is written. */
export type Show = z.infer<typeof showSchema>;
/** How a cell looks, whatever it holds. */
export type CellStyle = z.infer<typeof styleSchema>;
/** Which entries a cell takes. */
export type Allow = z.infer<typeof allowSchema>;
/** A cell as it is saved. */
export type CellDocument = z.infer<typeof cellSchema>;
/** What a cell held in the other units, as it is saved. */
export type OtherUnits = z.infer<typeof otherSchema>;
/** A column as it is saved. */
export type ColumnDocument = z.infer<typeof columnSchema>;
/** A row as it is saved. */
export type RowDocument = z.infer<typeof rowSchema>;
/** A sheet as it is saved. */
export type SheetDocument = z.infer<typeof sheetSchema>;
/** A check as it is saved. */
export type CheckDocument = z.infer<typeof checkSchema>;
/** A table as it is saved. */
export type TableDocument = z.infer<typeof tableSchema>;
/** What is said of a workbook as a plan for others, as it is saved. */
export type Guide = z.infer<typeof guideSchema>;
/** A photograph as it is saved. */
export type Photo = z.infer<typeof photoSchema>;
/** A workbook as it is saved. */
export type BookDocument = z.infer<typeof bookSchema>;

function isDay(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  // A day past the month's end is taken for one of the next month by some readers.
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
}
