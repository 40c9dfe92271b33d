import { loadValue, readJson, saveText } from '@kerfbook/workbook';

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
