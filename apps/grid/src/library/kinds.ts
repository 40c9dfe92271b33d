import type { Listed, ListedKind, Met } from '@kerfbook/workbook';

/** Kinds of what differs, as a heading of their list. */
export const KIND_HEADS: Readonly<Record<ListedKind, string>> = {
  cells: 'Entries and formulas',
  names: 'Names',
  remarks: 'Remarks',
  formats: 'Formats',
  rows: 'Rows',
  columns: 'Columns',
  sheets: 'Sheets',
  checks: 'Checks',
  tables: 'Tables',
  own: 'Your own woods, screws and finishes',
  workbook: 'About the workbook',
};

/** Kinds of what both changed. */
const MET_HEADS: Readonly<Record<Met['kind'], string>> = {
  entry: 'Entries and formulas',
  name: 'Names',
  words: 'Remarks and sentences',
  look: 'Formats',
  other: 'Rows, sheets and the rest',
};

/** The same in their order, as a list of places is divided. */
export const MET_KINDS: readonly (readonly [kind: string, head: string])[] =
  Object.entries(MET_HEADS);

const NOUNS: Readonly<Record<ListedKind, readonly [one: string, many: string]>> = {
  cells: ['entry', 'entries'],
  names: ['name', 'names'],
  remarks: ['remark', 'remarks'],
  formats: ['format', 'formats'],
  rows: ['row', 'rows'],
  columns: ['column', 'columns'],
  sheets: ['sheet', 'sheets'],
  checks: ['check', 'checks'],
  tables: ['table', 'tables'],
  own: ['own figure', 'own figures'],
  workbook: ['line about the workbook', 'lines about the workbook'],
};

export const counted = (many: number, one: string, several = `${one}s`): string =>
  `${many} ${many === 1 ? one : several}`;

/** What of each kind there is, in their order. */
export function byKind<T extends { readonly kind: string }>(
  all: readonly T[],
  kinds: readonly T['kind'][],
): readonly (readonly [kind: T['kind'], some: readonly T[]])[] {
  return kinds.flatMap((kind) => {
    const some = all.filter((one) => one.kind === kind);
    return some.length === 0 ? [] : [[kind, some] as const];
  });
}

/** `12 entries, 2 rows and 1 check` */
export function countedKinds(
  all: readonly Pick<Listed, 'kind'>[],
  kinds: readonly ListedKind[],
): string {
  const parts = byKind(all, kinds).map(([kind, some]) => counted(some.length, ...NOUNS[kind]));
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}
