import * as z from 'zod/mini';
import {
  cellSchema,
  checkSchema,
  columnSchema,
  headSchema,
  rowSchema,
  sheetSchema,
  tableSchema,
} from '../format/schema.ts';
import { sheetNameProblem } from '../format/sheet-name.ts';
import { placeInWords, troubleInWords } from '../format/trouble.ts';
import { keptNameProblem } from '../formula/names.ts';
import type { Change, ListName } from './types.ts';

const id = z.string().check(z.regex(/^[a-z][a-z0-9]{0,11}$/));
const ids = z.array(id);
const after = z.nullable(id);
const set = z.record(z.string(), z.unknown());
/** What has changes of its own, or none. */
const INSIDE = new Set(['id', 'sheets rows', 'sheets columns', 'rows cells']);
type Shape = Record<string, z.ZodMiniType>;

const LISTS = {
  sheets: sheetSchema,
  rows: rowSchema,
  columns: columnSchema,
  checks: checkSchema,
  tables: tableSchema,
} as const;

/** What may be set of a member. */
const SETS: Record<ListName, Shape> = {
  sheets: sheetSchema.shape,
  rows: { ...rowSchema.shape, bare: z.exactOptional(z.literal(true)) },
  columns: columnSchema.shape,
  checks: checkSchema.shape,
  tables: tableSchema.shape,
};

const isLines = (list: ListName): boolean => list === 'rows' || list === 'columns';

const cells = z.array(z.strictObject({ row: id, column: id, cell: z.nullable(cellSchema) }));

/** What each kind of change has beside its kind and its list; properties are read one by one. */
const KEYS = {
  cells: (): Shape => ({ sheet: id, cells }),
  head: (): Shape => ({ set }),
  insert: (list: ListName): Shape => ({ after, items: z.array(LISTS[list] as z.ZodMiniType) }),
  remove: (): Shape => ({ ids }),
  order: (): Shape => ({ ids, after }),
  set: (list: ListName): Shape => (isLines(list) ? { ids, set } : { id, set }),
};
/**
 * Changes as they come from a log or a file; where they are none, what is wrong with the first that is
 * not, as a person says it.
 */
export function readChanges(
  raw: unknown,
): { readonly changes: readonly Change[] } | { readonly where: string; readonly why: string } {
  if (!Array.isArray(raw)) return { where: 'the changes', why: 'they are no list' };
  for (const [at, one] of raw.entries()) {
    const where = `change ${at + 1}`;
    const shape = shapeOf(one);
    if (shape === undefined) return { where, why: 'it is of no kind that there is' };
    const issue = z.strictObject(shape).safeParse(one).error?.issues[0] ?? propertyIssue(one);
    const name = issue === undefined ? nameIn(one as Change) : undefined;
    if (name !== undefined) return { where, why: name };
    if (issue === undefined) continue;
    const inside = issue.path.length === 0 ? where : `${where}, ${placeInWords(issue.path)}`;
    return { where: inside, why: troubleInWords(issue) };
  }
  return { changes: raw as readonly Change[] };
}

function shapeOf(raw: unknown): Shape | undefined {
  const { change, list } = (raw ?? {}) as { change?: keyof typeof KEYS; list?: ListName };
  if (change === undefined || !Object.hasOwn(KEYS, change)) return undefined;
  const kind = { change: z.literal(change) };
  if (change === 'cells' || change === 'head') return { ...kind, ...KEYS[change]() };
  if (list === undefined || !Object.hasOwn(LISTS, list)) return undefined;
  const home = isLines(list) ? { sheet: id } : {};
  return { ...kind, list: z.literal(list), ...home, ...KEYS[change](list) };
}

/** What is wrong with a property that is set: it is one of its member, and only what may be left out is taken away. */
function propertyIssue(change: Change): z.core.$ZodIssue | undefined {
  if (change.change !== 'set' && change.change !== 'head') return undefined;
  const shape: Shape = change.change === 'head' ? headSchema.shape : SETS[change.list];
  const list = change.change === 'set' ? change.list : '';
  for (const [key, value] of Object.entries(change.set)) {
    const schema = INSIDE.has(key) || INSIDE.has(`${list} ${key}`) ? undefined : shape[key];
    if (value === null && schema?._zod.optin === 'optional') continue;
    const checked = z.strictObject(schema === undefined ? {} : { [key]: schema });
    const issue = checked.safeParse({ [key]: value }).error?.issues[0];
    if (issue !== undefined) return issue;
  }
  return undefined;
}

/** Why a name that a change brings will not do; the schema holds names to their length only. */
function nameIn(change: Change): string | undefined {
  for (const name of cellNames(change)) {
    const problem = keptNameProblem(name);
    if (problem !== undefined) return `the name "${name}" will not do: ${problem.says}`;
  }
  for (const name of sheetNames(change)) {
    const problem = sheetNameProblem(name);
    if (problem !== undefined) return `a sheet cannot be called "${name}": ${problem}`;
  }
  return undefined;
}

function cellNames(change: Change): readonly string[] {
  if (change.change === 'cells') return change.cells.flatMap(({ cell }) => cell?.name ?? []);
  if (change.change !== 'insert') return [];
  const rows =
    change.list === 'rows'
      ? change.items
      : change.list === 'sheets'
        ? change.items.flatMap((sheet) => sheet.rows)
        : [];
  return rows.flatMap(({ cells = {} }) => Object.values(cells).flatMap(({ name }) => name ?? []));
}

function sheetNames(change: Change): readonly string[] {
  if (change.change === 'insert' && change.list === 'sheets') {
    return change.items.map(({ name }) => name);
  }
  const renames = change.change === 'set' && change.list === 'sheets';
  return renames && typeof change.set.name === 'string' ? [change.set.name] : [];
}
