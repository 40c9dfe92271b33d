import { FORMER_NAMES, HEADS_SINCE_FIRST } from '../formula/former.ts';
import { formulaOfToday, nameOfToday, type Renaming, sentenceOfToday } from './former-formula.ts';

/**
 * Steps from one version of the format to the next. They are pure, and take anything: what does not fit
 * is left as it is, for the schema to say so.
 *
 * Version 3 takes more and means the same: whom a workbook is for, with job, due date, revision and terms, the
 * results that matter most, sheets out of the list, and words broken over lines. An app of version 2 would call
 * a workbook that holds any of them damaged; of one of version 3 it says that a newer Kerfbook wrote it.
 * Version 4 takes tables of joints, and means the same.
 * Version 5 takes tags, and of a lineage which template of which state it is; it means the same.
 * Version 6 takes the day a price was agreed on and a letterhead, and means the same.
 * Version 7 takes tables of steps and of words in a second language, photographs, and what is said of a workbook as a
 * plan for others; it means the same.
 * Version 8 takes tables of studies, of variants, of operations, of hours that were worked and of prices; it means the same.
 *
 * The step from version 1 to version 2. It is pure and takes anything: what does not fit
 * is left as it is, for the schema to say so. In version 2
 *
 * - what a cell looks like is its `style`, `bold`, `italic`, with a `background`
 *   (`look`, `strong`, `slanted`, `ground` before);
 * - how bad a check is, its `severity` (`otherwise`), and the cells that bear its sign, `cells` (`marks`);
 * - columns that stay in view, `frozenColumns` (`frozen`);
 * - a workbook in which only inputs can be changed is `locked` (`"changes": "inputs"`);
 * - the boards of a panel are called boards in functions and in names of cells (`FORMER_FUNCTIONS`,
 *   `FORMER_NAMES`). A name stays where the workbook has a cell of the new name already;
 * - columns of parts tables headed `boards` and the like say how a part is glued up (`HEADS_SINCE_FIRST`):
 *   where a maker headed a column of their own so, it is headed `my boards`.
 */

export const FIRST_VERSION = 1;
export const SECOND_VERSION = 2;
export const THIRD_VERSION = 3;
export const FOURTH_VERSION = 4;
export const FIFTH_VERSION = 5;
export const SIXTH_VERSION = 6;
export const SEVENTH_VERSION = 7;

/** What an older text was brought up from, and how edits that were made on it are. */
export interface Migration {
  /** Version of the format it was in. */
  readonly from: number;
  /** What was changed of what the maker wrote, in one sentence; nothing where nothing was. */
  readonly says?: string;
  /** An edit that the older program made on this workbook and kept, in the words of today. */
  readonly edit: (edit: unknown) => unknown;
}

interface Group {
  readonly [key: string]: unknown;
}

/** The parsed text of a workbook of version 1 as one of version 2. */
export function fromVersion1(raw: Group): { readonly value: Group; readonly migration: Migration } {
  const words = new Words(namesThatStay(raw));
  const value = words.book(raw);
  const says = changedSentence(words);
  return {
    value,
    migration: {
      from: FIRST_VERSION,
      ...(says === undefined ? {} : { says }),
      edit: (edit) => words.edit(edit),
    },
  };
}

/** The parsed text of a workbook of version 2 as one of version 3; edits of then mean today what they meant. */
export const fromVersion2 = (raw: Group) => asItStands(raw, SECOND_VERSION);

/** The same of version 3 as one of version 4. */
export const fromVersion3 = (raw: Group) => asItStands(raw, THIRD_VERSION);

/** The same of version 4 as one of version 5. */
export const fromVersion4 = (raw: Group) => asItStands(raw, FOURTH_VERSION);

/** The same of version 5 as one of version 6. */
export const fromVersion5 = (raw: Group) => asItStands(raw, FIFTH_VERSION);

/** The same of version 6 as one of version 7. */
export const fromVersion6 = (raw: Group) => asItStands(raw, SIXTH_VERSION);

/** The same of version 7 as one of version 8. */
export const fromVersion7 = (raw: Group) => asItStands(raw, SEVENTH_VERSION);

const asItStands = (
  raw: Group,
  from: number,
): { readonly value: Group; readonly migration: Migration } => ({
  value: { ...raw, kerfbook: from + 1 },
  migration: { from, edit: (edit) => edit },
});

const EARLIER = 'This workbook is from an earlier Kerfbook';

/** What was changed of what the maker wrote; nothing where nothing was. */
function changedSentence({ renamed, ownHeads }: Words): string | undefined {
  const heads = ownHeads.map(
    (head) =>
      ` A column of yours in a parts table is headed "my ${head}" now, since "${head}" has come to mean the boards that a part is glued up of.`,
  );
  if (renamed === 0) return heads.length === 0 ? undefined : `${EARLIER}.${heads.join('')}`;
  const many = renamed === 1 ? 'one name in it is' : `${renamed} names in it are`;
  const rest = heads.length === 0 ? ', and nothing else is.' : `.${heads.join('')}`;
  return `${EARLIER}, which called the boards of a panel staves: ${many} new now, in formulas and of cells${rest}`;
}

const isGroup = (value: unknown): value is Group =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

const cellsOf = (row: unknown): readonly unknown[] =>
  isGroup(row) && isGroup(row.cells) ? Object.values(row.cells) : [];

const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** Former names that go on, since a cell has the new one. */
function namesThatStay({ sheets }: Group): ReadonlySet<string> {
  const names = new Set<string>();
  for (const sheet of list(sheets)) {
    for (const row of isGroup(sheet) ? list(sheet.rows) : []) {
      for (const cell of cellsOf(row)) {
        if (isGroup(cell) && typeof cell.name === 'string') names.add(cell.name.toLowerCase());
      }
    }
  }
  return new Set([...FORMER_NAMES].filter(([, now]) => names.has(now)).map(([former]) => former));
}

/** Where the heads of parts tables stand: `sheet row`. */
const partsHeaders = ({ tables }: Group): ReadonlySet<string> =>
  new Set(
    list(tables).flatMap((table) =>
      isGroup(table) && table.kind === 'parts' ? [`${table.sheet} ${table.header}`] : [],
    ),
  );

type Change = (value: unknown) => unknown;

/** A group under other keys, its values changed; what is no group stays. */
function group(
  value: unknown,
  keys: Readonly<Record<string, string>>,
  change: Record<string, Change> = {},
) {
  if (!isGroup(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => {
      // Where both are there, one of them is too many: the schema says so.
      const now = Object.hasOwn(keys, key) ? (keys[key] as string) : key;
      const free = now !== key && !Object.hasOwn(value, now);
      const next = Object.hasOwn(change, key) ? (change[key] as Change)(one) : one;
      return [free ? now : key, next];
    }),
  );
}

const each =
  (change: Change): Change =>
  (value) =>
    Array.isArray(value) ? value.map(change) : value;

const eachOf =
  (change: Change): Change =>
  (value) =>
    isGroup(value)
      ? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, change(one)]))
      : value;

/** Takes words of version 1 to those of version 2 and notes what it changes of the maker's own. */
class Words {
  renamed = 0;
  /** Heads of columns of the maker's own, as they were. */
  readonly ownHeads: string[] = [];
  #headers: ReadonlySet<string> = new Set();
  readonly #keeps: ReadonlySet<string>;

  constructor(keeps: ReadonlySet<string>) {
    this.#keeps = keeps;
  }

  book(raw: Group): Group {
    this.#headers = partsHeaders(raw);
    const value = group(
      raw,
      { changes: 'locked' },
      {
        kerfbook: () => 2,
        changes: lockedFrom,
        sheets: each(this.#sheet),
        checks: each(this.#check),
      },
    );
    return value as Group;
  }

  /** An edit of the older program; one that is none stays, to be refused. */
  edit(edit: unknown): unknown {
    // The one edit whose `name` is a sheet's.
    if (isGroup(edit) && edit.do === 'renameSheet') return edit;
    return group(
      edit,
      {},
      {
        do: (what) => FORMER_EDITS.get(what) ?? what,
        edits: each((one) => this.edit(one)),
        cells: (cells) =>
          Array.isArray(cells) ? cells.map(this.#place) : eachOf(eachOf(this.#cell))(cells),
        rows: each(this.#row),
        sheet: this.#sheet,
        checks: each(this.#check),
        set: (set) => group(set, { changes: 'locked' }, { changes: lockedFrom }),
        book: (book) => (isGroup(book) && book.kerfbook === FIRST_VERSION ? this.book(book) : book),
        name: this.#name,
        from: this.#name,
        to: this.#name,
      },
    );
  }

  readonly #sheet: Change = (sheet) => {
    const id = isGroup(sheet) ? sheet.id : undefined;
    const row: Change = (one) =>
      isGroup(one) && this.#headers.has(`${id} ${one.id}`)
        ? group(this.#row(one), {}, { cells: eachOf(this.#head) })
        : this.#row(one);
    return group(sheet, { frozen: 'frozenColumns' }, { rows: each(row) });
  };

  readonly #head: Change = (cell) => group(cell, {}, { value: this.#headValue });

  readonly #headValue: Change = (value) => {
    if (typeof value !== 'string') return value;
    const head = value.trim();
    if (!HEADS_SINCE_FIRST.has(head.toLowerCase().replaceAll(/\s+/g, ' '))) return value;
    this.ownHeads.push(head);
    return `my ${head}`;
  };

  readonly #row: Change = (row) => group(row, {}, { cells: eachOf(this.#cell) });

  readonly #cell: Change = (cell) =>
    group(
      cell,
      { look: 'style' },
      {
        formula: this.#formula,
        name: this.#name,
        look: styleFrom,
      },
    );

  /** A cell of an edit: what was typed, a whole cell, or what is said of it. */
  readonly #place: Change = (place) =>
    group(
      place,
      {},
      {
        text: this.#typed,
        cell: this.#cell,
        traits: (traits) => group(traits, { look: 'style' }, { look: styleFrom }),
      },
    );

  readonly #check: Change = (check) =>
    group(
      check,
      { otherwise: 'severity', marks: 'cells' },
      {
        formula: this.#formula,
        marks: this.#formula,
        says: (says) =>
          typeof says === 'string' ? this.#count(sentenceOfToday(says, this.#keeps)) : says,
      },
    );

  readonly #typed: Change = (text) =>
    typeof text === 'string' && /^\s*=/.test(text) ? this.#formula(text) : text;

  readonly #formula: Change = (formula) =>
    typeof formula === 'string' ? this.#count(formulaOfToday(formula, this.#keeps)) : formula;

  readonly #name: Change = (name) => {
    if (typeof name !== 'string') return name;
    const now = nameOfToday(name, this.#keeps);
    return this.#count({ text: now, renamed: now === name ? 0 : 1 });
  };

  #count({ text, renamed }: Renaming): string {
    this.renamed += renamed;
    return text;
  }
}

/** What edits were called in the first version, where it was otherwise. */
const FORMER_EDITS: ReadonlyMap<unknown, string> = new Map([
  ['several', 'batch'],
  ['lift', 'restore'],
]);

const lockedFrom: Change = (changes) => (changes === 'inputs' ? true : changes);

const styleFrom: Change = (look) =>
  group(look, { strong: 'bold', slanted: 'italic', ground: 'background' });
