import type * as z from 'zod/mini';
import { type Complaint, complaint, type RefusedResult } from '../faults/catalogue.ts';
import { repeatedKey } from '../format/repeated-key.ts';
import { type BookDocument, DOCUMENT_VERSION, LIMITS } from '../format/schema.ts';
import { placeInWords, shortened, troubleInWords } from '../format/trouble.ts';
import { formulaCells } from '../state/formulas.ts';
import { lettersAtMost, lettersNow, megabytes } from '../state/letters.ts';
import { BookState } from '../state/state.ts';
import { documentProblem } from './consistency.ts';
import { keptByIds } from './kept-by-ids.ts';
import {
  FIFTH_VERSION,
  FIRST_VERSION,
  FOURTH_VERSION,
  fromVersion1,
  fromVersion2,
  fromVersion3,
  fromVersion4,
  fromVersion5,
  fromVersion6,
  fromVersion7,
  type Migration,
  SECOND_VERSION,
  SEVENTH_VERSION,
  SIXTH_VERSION,
  THIRD_VERSION,
} from './migrate.ts';
import { readBook } from './plain-cells.ts';

/** A workbook that was read, or a sentence that says why not. */
export type Loaded =
  | {
      readonly ok: true;
      readonly document: BookDocument;
      /** How it came from an older version; left out where the text is of this one. */
      readonly migration?: Migration;
    }
  | RefusedResult;

/**
 * Reads the saved form of a workbook. Whatever the text is, the answer is a workbook whose parts
 * fit together, or one sentence that says why not (rule D1).
 */
export function loadText(text: string): Loaded {
  if (text.length > LIMITS.book) {
    return refused(complaint('D5', `${Math.ceil(text.length / 1024 / 1024)} MB`));
  }
  const read = readJson(text);
  return read.ok ? loadParsed(read.value, text.length <= LIMITS.book / LONGER_SAVED) : read;
}

/** Text as JSON, every key of a group once; or a sentence that says why not. */
export function readJson(
  text: string,
): { readonly ok: true; readonly value: unknown } | RefusedResult {
  let value: unknown;
  try {
    // A byte order mark is what some editors put before the text; it is not part of it.
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refused(complaint('D1', parseTrouble(error)));
  }
  const twice = repeatedKey(text);
  if (twice === undefined) return { ok: true, value };
  const why = `the key ${quoted(twice.key)} stands there twice in one place`;
  return refused(complaint('D4', `line ${twice.line}`, why));
}

/** The same for a value that was parsed already. */
export function loadValue(raw: unknown): Loaded {
  return loadParsed(raw, false);
}

/** From each earlier version to the next. */
const STEPS: ReadonlyMap<unknown, typeof fromVersion1> = new Map([
  [FIRST_VERSION, fromVersion1],
  [SECOND_VERSION, fromVersion2],
  [THIRD_VERSION, fromVersion3],
  [FOURTH_VERSION, fromVersion4],
  [FIFTH_VERSION, fromVersion5],
  [SIXTH_VERSION, fromVersion6],
  [SEVENTH_VERSION, fromVersion7],
]);

function loadParsed(raw: unknown, small: boolean): Loaded {
  const version = versionOf(raw);
  if (version === undefined) return refused(complaint('D2'));
  if (typeof version === 'number' && version > DOCUMENT_VERSION) {
    return refused(complaint('D3', String(version)));
  }
  const step = STEPS.get(version);
  if (step !== undefined) {
    const { value, migration } = step(raw as Record<string, unknown>);
    const loaded = loadParsed(value, small);
    return loaded.ok ? { ...loaded, migration } : loaded;
  }
  if (version !== DOCUMENT_VERSION) return refused(complaint('D6', quoted(version)));
  const checked = readBook(raw);
  if (!checked.success) return refused(firstTrouble(checked.error));
  const problem = hiddenCell(raw as BookDocument) ?? documentProblem(checked.data);
  if (problem !== undefined) return refused(problem);
  const letters = small ? undefined : lettersToKeep(checked.data);
  if (letters !== undefined) return refused(complaint('D7', megabytes(letters)));
  return { ok: true, document: checked.data };
}

/** The schema passes over the one key that no group of cells can have, with what stands under it. */
function hiddenCell({ sheets }: BookDocument): Complaint | undefined {
  for (const [sheet, { rows }] of sheets.entries()) {
    for (const [row, { cells }] of rows.entries()) {
      if (cells === undefined || !Object.hasOwn(cells, '__proto__')) continue;
      const where = placeInWords(['sheets', sheet, 'rows', row, 'cells']);
      return complaint('D4', where, 'its key "__proto__" will not do');
    }
  }
  return undefined;
}

/** Letters that a reference by address takes in place of each of its own, once it is kept by ids. */
const LONGER_BY_IDS = 10;
/** So much longer can a text become by being opened and saved again; most of it are such references. */
const LONGER_SAVED = LONGER_BY_IDS;

/**
 * How many letters a document takes when it is saved again, where they are too many. A file may be
 * written closer than we write it, with addresses in place of ids.
 */
function lettersToKeep(document: BookDocument): number | undefined {
  const state = BookState.of(document);
  let formulas = 0;
  for (const { cell } of formulaCells(state)) formulas += cell.formula.length;
  if (lettersAtMost(state) + LONGER_BY_IDS * formulas <= LIMITS.book) return undefined;
  const letters = lettersNow(keptByIds(state));
  return letters > LIMITS.book ? letters : undefined;
}

function refused(problem: Complaint): RefusedResult {
  return { ok: false, ...problem };
}

function versionOf(raw: unknown): unknown {
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) return undefined;
  return Object.hasOwn(raw, 'kerfbook') ? (raw as { kerfbook: unknown }).kerfbook : undefined;
}

function parseTrouble(error: unknown): string {
  const position = error instanceof Error ? /position (\d+)/.exec(error.message)?.[1] : undefined;
  return position === undefined ? 'it ends too early or is empty' : `at character ${position}`;
}

function firstTrouble(error: z.core.$ZodError): Complaint {
  const issue = error.issues[0];
  if (issue === undefined) return complaint('D4', 'an unknown place', 'it does not fit');
  return complaint('D4', placeInWords(issue.path), troubleInWords(issue));
}

const quoted = (value: unknown): string => shortened(JSON.stringify(value));
