/**
 * What came of the names and rows of two workbooks that were put together, each with a code that never
 * changes its meaning, as `FAULTS` has them for documents and edits.
 */
const SENTENCES = {
  J1: (many: number) =>
    `${counted(many, 'input is', 'inputs are')} in both workbooks. Those of this one count; what comes in follows them.`,
  J2: (many: number) =>
    `${counted(many, 'input', 'inputs')} of this workbook will follow what the new sheets work out.`,
  J3: (many: number) =>
    `Both workbooks work out ${counted(many, 'name', 'names')} in ways of their own. What comes in gets another name.`,
  J4: (many: number) =>
    `${counted(many, 'name stands', 'names stand')} for something else in the other workbook. What comes in gets another name.`,
  J5: (many: number) =>
    `${counted(many, 'name', 'names')} would be worked out from themselves. What comes in gets another name.`,
  J6: (many: number) =>
    `${counted(many, 'part is', 'parts are')} in both workbooks and would stand twice. Rename one of each, or delete a row.`,
  J7: (many: number) =>
    `${counted(many, 'cell comes', 'cells come')} in without a name: a hundred names like it are taken.`,
} as const;

export type ToldCode = keyof typeof SENTENCES;

/** One thing that came of putting two workbooks together, for a person. */
export interface Told {
  /** It stays when the sentence is put better. */
  readonly code: string;
  /** How many, and what becomes of them. */
  readonly says: string;
  /** Which: names of cells, where they get another one that too; names of parts. */
  readonly which: readonly string[];
}

const counted = (many: number, one: string, more: string): string =>
  `${many} ${many === 1 ? one : more}`;

/** One sentence for all that the same became of. */
export const toldOf = (found: ReadonlyMap<ToldCode, readonly string[]>): readonly Told[] =>
  [...found].map(([code, which]) => ({ code, says: SENTENCES[code](which.length), which }));
