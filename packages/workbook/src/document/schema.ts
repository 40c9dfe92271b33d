import { QUANTITIES } from '@kerfbook/wood';
import * as z from 'zod';

/**
 * The saved form of a workbook. `packages/workbook/RULES.md` says what each part promises.
 * Formulas are kept with row and column ids instead of A1 addresses (rule F1).
 */

export const DOCUMENT_VERSION = 1;

/** Sheets per workbook, rows and columns per sheet: what reader and engine accept. */
export const LIMITS = {
  sheets: 50,
  rows: 10_000,
  columns: 702,
  text: 8_192,
  formula: 2_000,
  frozen: 20,
  groups: 3,
} as const;

const id = z
  .string()
  .regex(/^[a-z][a-z0-9]{0,11}$/, 'an id is a letter and up to 11 letters or digits');
const shortText = z.string().max(200);
const longText = z.string().max(LIMITS.text);
const finite = z.number();

export const scalarSchema = z.union([finite, longText, z.boolean()]);

export const showSchema = z.strictObject({
  /** How a number is written: fractions and feet-inches for lengths, decimals for any number. */
  as: z.enum(['fraction', 'feet-inches', 'decimal', 'plain']).exactOptional(),
  /** Unit shown, of the cell's quantity: `ft²`, `gal`, `mm` …; the own unit where left out. */
  unit: z.string().max(12).exactOptional(),
  /** Nearest 1/denominator, for fractions. */
  denominator: z.int().min(2).max(128).exactOptional(),
  decimals: z.int().min(0).max(10).exactOptional(),
});

/** Grounds a cell may be laid on, named for what they look like in a shop. */
export const GROUNDS = ['sand', 'clay', 'slate', 'ash', 'plum'] as const;

export const lookSchema = z.strictObject({
  strong: z.literal(true).exactOptional(),
  slanted: z.literal(true).exactOptional(),
  align: z.enum(['start', 'centre', 'end']).exactOptional(),
  ground: z.enum(GROUNDS).exactOptional(),
});

export const allowSchema = z.strictObject({
  min: finite.exactOptional(),
  max: finite.exactOptional(),
  list: z.array(longText).max(500).exactOptional(),
  whole: z.boolean().exactOptional(),
  /** Names in the workbook's own table of this kind are allowed beside the list. */
  from: z.enum(['woods', 'finishes']).exactOptional(),
});

export const entrySchema = z.strictObject({
  value: scalarSchema,
  /** What the maker typed, where it is not simply the value written out. */
  typed: longText.exactOptional(),
});

export const cellSchema = z.strictObject({
  value: scalarSchema.exactOptional(),
  typed: longText.exactOptional(),
  formula: z.string().max(LIMITS.text).startsWith('=').exactOptional(),
  /** A value typed over a calculated cell; the formula stays and comes back when it is lifted. */
  override: entrySchema.exactOptional(),
  quantity: z.enum(QUANTITIES).exactOptional(),
  show: showSchema.exactOptional(),
  role: z.enum(['input', 'calculated', 'heading', 'note']).exactOptional(),
  name: z.string().max(100).exactOptional(),
  remark: longText.exactOptional(),
  allow: allowSchema.exactOptional(),
  look: lookSchema.exactOptional(),
});

export const columnSchema = z.strictObject({
  id,
  /** Out of sight; it goes on calculating. */
  hidden: z.literal(true).exactOptional(),
  width: z.int().min(16).max(2000).exactOptional(),
});

export const rowSchema = z.strictObject({
  id,
  /** Out of sight; it goes on calculating. */
  hidden: z.literal(true).exactOptional(),
  /** How many groups of rows it is in, one inside the other. */
  group: z.int().min(1).max(LIMITS.groups).exactOptional(),
  cells: z.record(id, cellSchema).exactOptional(),
});

export const sheetSchema = z.strictObject({
  id,
  name: z.string().min(1).max(31),
  columns: z.array(columnSchema).max(LIMITS.columns),
  rows: z.array(rowSchema).max(LIMITS.rows),
  /** How many columns stay in view at the left. */
  frozen: z.int().min(1).max(LIMITS.frozen).exactOptional(),
  /** How many rows stay in view at the top. */
  frozenRows: z.int().min(1).max(LIMITS.frozen).exactOptional(),
});

export const checkSchema = z.strictObject({
  id,
  name: shortText.min(1),
  /** Sheet beside whose name the check's state is shown. */
  sheet: id.exactOptional(),
  /** Must be true. */
  formula: z.string().max(LIMITS.text).startsWith('='),
  /** How bad it is when it is not. */
  otherwise: z.enum(['stop', 'care']),
  /** The sentence to show then; `{name}` stands for a named cell as it is shown. */
  says: longText.min(1),
  /** Cells that bear its sign while it is not true, as a formula of references. */
  marks: z.string().max(LIMITS.text).startsWith('=').exactOptional(),
});

/** A header row and the rows under it, with known columns. */
export const tableSchema = z.strictObject({
  id,
  kind: z.enum(['parts', 'stock', 'woods', 'screws', 'finishes']),
  sheet: id,
  header: id,
  last: id,
});

export const bookSchema = z.strictObject({
  kerfbook: z.literal(DOCUMENT_VERSION),
  title: shortText.min(1),
  about: longText.exactOptional(),
  units: z.enum(['us', 'metric']),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/, 'three capital letters after ISO 4217')
    .exactOptional(),
  licence: shortText.exactOptional(),
  author: shortText.exactOptional(),
  /** Left out: everything may be changed. */
  changes: z.literal('inputs').exactOptional(),
  lineage: z.strictObject({ template: shortText, revision: z.int().min(1) }).exactOptional(),
  sheets: z.array(sheetSchema).min(1).max(LIMITS.sheets),
  checks: z.array(checkSchema).max(500),
  tables: z.array(tableSchema).max(50),
});

export type Scalar = z.infer<typeof scalarSchema>;
export type Show = z.infer<typeof showSchema>;
export type Look = z.infer<typeof lookSchema>;
export type Allow = z.infer<typeof allowSchema>;
export type CellDocument = z.infer<typeof cellSchema>;
export type ColumnDocument = z.infer<typeof columnSchema>;
export type RowDocument = z.infer<typeof rowSchema>;
export type SheetDocument = z.infer<typeof sheetSchema>;
export type CheckDocument = z.infer<typeof checkSchema>;
export type TableDocument = z.infer<typeof tableSchema>;
export type BookDocument = z.infer<typeof bookSchema>;
