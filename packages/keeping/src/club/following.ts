import { baseKey, restsAtClubKey } from '../bases.ts';
import type { BookStore } from '../book-store.ts';
import { letBasesGo } from '../lineage.ts';
import type { Values } from '../records.ts';

/** Version of what is kept of a workbook that follows; what a newer app keeps is left alone. */
const FOLLOWS = 1;

/** Kept beside a workbook that follows its member: what of it the club has, as far as this device knows. */
export interface Following {
  readonly kept: number;
  /** Its id at the club: its own, but for the working copy of a template, which has the same id everywhere. */
  readonly at: string;
  /** Whose it is here: another member who signs in on this device lets it be. */
  readonly member: string;
  /** Who may delete it at the club. */
  readonly owner: string;
  /** Number of the last state that is in the workbook here; 0 before the club said that it has one. */
  readonly head: number;
  /** SHA-256 of the text of that state, which is kept among the bases; `''` where there is none. */
  readonly sign: string;
  /** Number of the edit of the workbook here that this state holds; -1 where that is not known. */
  readonly revision: number;
  /** Signs of states that were sent on top of it and of which the club's answer was not heard. */
  readonly sent: readonly string[];
  /** What the club did not take, and why: it is sent again once it is another one. */
  readonly refused?: { readonly sign: string; readonly says: string };
  /** Who made the last state that came from elsewhere. */
  readonly by?: { readonly name: string; readonly device: string; readonly at: number };
}

const PREFIX = 'club:';
/** Under which that is kept; it goes where the workbook goes. */
export const clubKey = (id: string): string => `${PREFIX}${id}`;

/** A workbook that begins to follow. */
export const beginning = (at: string, member: string): Following => ({
  kept: FOLLOWS,
  at,
  member,
  owner: member,
  head: 0,
  sign: '',
  revision: -1,
  sent: [],
});

/** What is kept of one workbook; nothing where it does not follow, or a newer app keeps it. */
export async function followingOf(store: BookStore, id: string): Promise<Following | undefined> {
  return readFollowing(await store.get(clubKey(id)));
}

/** All workbooks of this device that follow, by their ids here. */
export async function allFollowing(store: BookStore): Promise<ReadonlyMap<string, Following>> {
  const found = [...(await store.values(PREFIX))].flatMap(([key, value]) => {
    const one = readFollowing(value);
    return one === undefined ? [] : [[key.slice(PREFIX.length), one] as const];
  });
  return new Map(found);
}

function readFollowing(value: unknown): Following | undefined {
  if (value === null || typeof value !== 'object') return undefined;
  const raw = value as { readonly [K in keyof Following]?: unknown };
  const { kept, at, member, owner, head, sign, revision, sent } = raw;
  const isWhole =
    kept === FOLLOWS &&
    [at, member, owner, sign].every((one) => typeof one === 'string') &&
    [head, revision].every(Number.isSafeInteger) &&
    Array.isArray(sent) &&
    sent.every((one) => typeof one === 'string');
  return isWhole ? (value as Following) : undefined;
}

const signsOf = (one: Following | undefined): readonly string[] =>
  one === undefined ? [] : [...new Set([one.sign, ...one.sent])].filter((sign) => sign !== '');

/**
 * What is written where a workbook follows by `next` from now on, with the states that this rests on; `undefined` for no
 * more.
 * @param texts of states that are not kept yet, by their signs
 */
export function followingValues(
  id: string,
  before: Following | undefined,
  next: Following | undefined,
  texts: ReadonlyMap<string, string> = new Map(),
): Values {
  const values = new Map<string, unknown>([[clubKey(id), next]]);
  for (const sign of signsOf(before)) values.set(restsAtClubKey(id, sign), undefined);
  for (const sign of signsOf(next)) {
    values.set(restsAtClubKey(id, sign), true);
    const text = texts.get(sign);
    if (text !== undefined) values.set(baseKey(sign), text);
  }
  return values;
}

/** Takes out all states that nothing rests on: a page that went away in between leaves one. */
export async function letLeftStatesGo(store: BookStore): Promise<void> {
  const signs = (await store.keys(baseKey(''))).map((key) => key.slice(baseKey('').length));
  await letBasesGo(store, signs).catch(() => undefined);
}

/** Takes out the states that nothing rests on any more, after what follows was written. */
export function letStatesGo(
  store: BookStore,
  before: Following | undefined,
  next: Following | undefined,
): Promise<void> {
  const stay = new Set(signsOf(next));
  const gone = signsOf(before).filter((sign) => !stay.has(sign));
  // It only makes room: where it fails, a text too many stays.
  return letBasesGo(store, gone).catch(() => undefined);
}
