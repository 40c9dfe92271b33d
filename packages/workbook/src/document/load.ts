import type * as z from 'zod/mini';
import { type Complaint, complaint, type RefusedResult } from '../faults/catalogue.ts';
import { documentProblem } from './consistency.ts';
import { type BookDocument, bookSchema, DOCUMENT_VERSION } from './schema.ts';
import { troubleInWords } from './trouble.ts';

export type Loaded = { readonly ok: true; readonly document: BookDocument } | RefusedResult;

const LARGEST = 20 * 1024 * 1024;

/**
 * Reads the saved form of a workbook. Whatever the text is, the answer is a workbook whose parts
 * fit together, or one sentence that says why not (rule D1).
 */
export function loadText(text: string): Loaded {
  if (text.length > LARGEST) {
    return refused(complaint('D5', `${Math.ceil(text.length / 1024 / 1024)} MB`));
  }
  let raw: unknown;
  try {
    // A byte order mark is what some editors put before the text; it is not part of it.
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refused(complaint('D1', parseTrouble(error)));
  }
  return loadValue(raw);
}

/** The same for a value that was parsed already. */
export function loadValue(raw: unknown): Loaded {
  const version = versionOf(raw);
  if (version === undefined) return refused(complaint('D2'));
  if (typeof version === 'number' && version > DOCUMENT_VERSION) {
    return refused(complaint('D3', String(version)));
  }
  if (version !== DOCUMENT_VERSION) return refused(complaint('D6', JSON.stringify(version)));
  const checked = bookSchema.safeParse(raw);
  if (!checked.success) return refused(firstTrouble(checked.error));
  const problem = documentProblem(checked.data);
  return problem === undefined ? { ok: true, document: checked.data } : refused(problem);
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

/** `sheets`, 0, `rows`, 4 → "sheets 1, rows 5". */
export function placeInWords(path: readonly PropertyKey[]): string {
  const words: string[] = [];
  for (const step of path) {
    const last = words.length - 1;
    if (typeof step === 'number' && last >= 0) words[last] = `${words[last]} ${step + 1}`;
    else words.push(String(step));
  }
  return words.length === 0 ? 'its outermost part' : words.join(', ');
}
