import { loadValue, readJson, saveText } from '@kerfbook/workbook';
import type { BookStore } from './book-store.ts';

/** A kept state of a workbook, without its text. */
export interface VersionHead {
  readonly key: string;
  /** When it was kept, ms since 1970. */
  readonly at: number;
  /** Left out where the app kept it by itself. */
  readonly name?: string;
}

/** States the app keeps by itself, at the most; the oldest give way. Named ones stay. */
const MOST_AUTOMATIC = 30;

/**
 * Earlier states of one workbook on this device (G56). The list and each text have a place of their
 * own in the store, so that a long history costs nothing until it is looked at.
 */
export class Versions {
  readonly #store: Pick<BookStore, 'get' | 'set'>;
  readonly #book: string;
  readonly #now: () => number;

  constructor(store: Pick<BookStore, 'get' | 'set'>, book: string, now: () => number) {
    this.#store = store;
    this.#book = book;
    this.#now = now;
  }

  /** Newest first. */
  async list(): Promise<readonly VersionHead[]> {
    const kept = await this.#store.get(this.#listKey);
    return Array.isArray(kept) ? (kept as VersionHead[]) : [];
  }

  async text(key: string): Promise<string | undefined> {
    const text = await this.#store.get(this.#textKey(key));
    return typeof text === 'string' ? text : undefined;
  }

  /** Keeps a state; by the app itself only where it differs from the last one kept. */
  async keep(text: string, name?: string, at = this.#now()): Promise<boolean> {
    const heads = await this.list();
    const [last] = heads;
    if (name === undefined && last !== undefined && (await this.text(last.key)) === text) {
      return false;
    }
    const key = `${at}-${heads.length}`;
    await this.#store.set(this.#textKey(key), text);
    const next = [{ key, at, ...(name === undefined ? {} : { name }) }, ...heads];
    const automatic = next.filter((head) => head.name === undefined);
    const gone = new Set(automatic.slice(MOST_AUTOMATIC).map((head) => head.key));
    await this.#store.set(
      this.#listKey,
      next.filter((head) => !gone.has(head.key)),
    );
    for (const old of gone) await this.#store.set(this.#textKey(old), undefined);
    return true;
  }

  get #listKey(): string {
    return `versions:${this.#book}`;
  }

  #textKey(key: string): string {
    return `version:${this.#book}:${key}`;
  }
}

/** A file that holds a workbook with its earlier states begins with this key. */
const MARK = 'kerfbook-versions';

interface Kept {
  readonly at: number;
  readonly name?: string;
  readonly text: string;
}

/** A workbook and its earlier states, newest first, as one text. */
export function withVersions(text: string, versions: readonly Kept[]): string {
  const states = versions.map(({ at, name, text: state }) => ({
    at,
    ...(name === undefined ? {} : { name }),
    book: JSON.parse(state) as unknown,
  }));
  return `${JSON.stringify({ [MARK]: 1, book: JSON.parse(text) as unknown, versions: states })}\n`;
}

/** Dates go so far from 1970, in ms. */
const FARTHEST = 8.64e15;

/** Such a text taken apart; undefined where it is none. States that cannot be read are counted. */
export function takenApart(
  text: string,
):
  | { readonly text: string; readonly versions: readonly Kept[]; readonly lost: number }
  | undefined {
  if (!text.slice(0, 200).includes(`"${MARK}"`)) return undefined;
  const read = readJson(text);
  if (!read.ok || !isGroup(read.value)) return undefined;
  const { [MARK]: version, book, versions: states = [], ...more } = read.value;
  if (version !== 1 || Object.keys(more).length > 0) return undefined;
  const listed: readonly unknown[] = Array.isArray(states) ? states : [states];
  const versions = listed.flatMap((state) => keptState(state) ?? []);
  return { text: JSON.stringify(book ?? null), versions, lost: listed.length - versions.length };
}

function keptState(state: unknown): Kept | undefined {
  if (!isGroup(state)) return undefined;
  const { at, name, book, ...more } = state;
  if (typeof at !== 'number' || Math.abs(at) > FARTHEST) return undefined;
  if (name !== undefined && typeof name !== 'string') return undefined;
  if (Object.keys(more).length > 0) return undefined;
  const loaded = loadValue(book);
  if (!loaded.ok) return undefined;
  return { at, ...(name === undefined ? {} : { name }), text: saveText(loaded.document) };
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
