import {
  type BookDocument,
  BookState,
  type CellDocument,
  type CheckDocument,
  keptByIds,
  same,
} from '@kerfbook/document';
import type { Refused } from '../api.ts';
import { roundFigures } from '../round-figures.ts';
import { Workbook } from '../workbook.ts';

/** A workbook, what it has in common with its template, and the template now, in the workbook's units and figures. */
export interface InStep {
  readonly ok: true;
  readonly base: BookDocument;
  readonly theirs: BookDocument;
  readonly mine: BookDocument;
}

/**
 * Brings two states of a template to the units and figures of a workbook that came of the first one (rule H10). A
 * place is put on round figures where the workbook's own is; where the template did not change it, both states have it
 * alike. What a template says of itself (title, whom it is for, tags, lineage, lock) is none of the workbook's.
 */
export function inStep(
  base: BookDocument,
  theirs: BookDocument,
  mine: BookDocument,
): InStep | Refused {
  const step = inUnitsOf(base, theirs, mine);
  return step.ok ? { ...step, theirs: withHeadOf(step.theirs, step.base) } : step;
}

/**
 * The same of two states of one workbook, as two devices have it. What it says of itself is changed by either like
 * anything else, and so are its units: where only the other one turned it, the workbook at hand is turned too.
 */
export function statesInStep(
  base: BookDocument,
  theirs: BookDocument,
  mine: BookDocument,
): InStep | Refused {
  if (base.units === theirs.units) return inUnitsOf(base, theirs, mine);
  const step = inUnitsOf(base, mine, theirs);
  return step.ok ? { ...step, theirs: step.mine, mine: step.theirs } : step;
}

function inUnitsOf(base: BookDocument, theirs: BookDocument, mine: BookDocument): InStep | Refused {
  const own = byIds(mine);
  const [was, is] = [turned(base, mine.units), turned(theirs, mine.units)];
  if (!was.ok) return was;
  if (!is.ok) return is;
  const common = was.rounded === undefined ? was.exact : onFigures(was, own);
  const later = is.rounded === undefined ? is.exact : onTheirFigures(is, was, common, own);
  return { ok: true, base: common, theirs: later, mine: own };
}

/** A workbook that takes changes, whether its maker locked it or not: nothing of the original is changed. */
export const unlocked = ({ locked: _lock, ...document }: BookDocument): BookDocument => document;

/** A workbook in other units, each size exactly what it was; refused where it cannot be turned. */
export function inUnits(
  document: BookDocument,
  units: BookDocument['units'],
): { readonly ok: true; readonly document: BookDocument } | Refused {
  if (document.units === units) return { ok: true, document };
  const book = Workbook.open(unlocked(document));
  const turned = book.apply({ do: 'changeUnits', to: units });
  return turned.ok ? { ok: true, document: book.document() } : turned;
}

/** A workbook as it is once it was opened: its references by address turned into ids (rule F7). */
export const byIds = (document: BookDocument): BookDocument =>
  keptByIds(BookState.of(document)).document();

interface Turned {
  readonly ok: true;
  readonly exact: BookDocument;
  /** On round figures; left out where there is no choice. */
  readonly rounded?: BookDocument;
}

function turned(document: BookDocument, units: BookDocument['units']): Turned | Refused {
  if (document.units === units) return { ok: true, exact: byIds(document) };
  const book = Workbook.open(unlocked(document));
  const done = book.apply({ do: 'changeUnits', to: units });
  if (!done.ok) return done;
  const exact = book.document();
  const edit = roundFigures(exact);
  if (edit === undefined) return { ok: true, exact: byIds(exact) };
  const round = book.apply(edit);
  if (!round.ok) return round;
  return { ok: true, exact: byIds(exact), rounded: byIds(book.document()) };
}

/** Cells and checks by where they are. */
type Parts = ReadonlyMap<string, CellDocument | CheckDocument>;

function partsOf(document: BookDocument): Parts {
  const parts = new Map<string, CellDocument | CheckDocument>();
  for (const { id: sheet, rows } of document.sheets) {
    for (const { id: row, cells = {} } of rows) {
      for (const [column, cell] of Object.entries(cells))
        parts.set(`${sheet} ${row} ${column}`, cell);
    }
  }
  for (const check of document.checks) parts.set(`check ${check.id}`, check);
  return parts;
}

/** Which places of a workbook stand on round figures, as it has them; elsewhere as most of them do. */
function roundIn(exact: Parts, rounded: Parts, own: Parts): (key: string) => boolean {
  const known = new Map<string, boolean>();
  let balance = 0;
  for (const [key, part] of rounded) {
    if (same(part, exact.get(key))) continue;
    const isRound = same(own.get(key), part);
    if (!isRound && !same(own.get(key), exact.get(key))) continue;
    known.set(key, isRound);
    balance += isRound ? 1 : -1;
  }
  return (key) => known.get(key) ?? balance > 0;
}

function onFigures({ exact, rounded = exact }: Turned, mine: BookDocument): BookDocument {
  const [one, other] = [partsOf(exact), partsOf(rounded)];
  const isRound = roundIn(one, other, partsOf(mine));
  return withParts(exact, (key) => (isRound(key) ? other.get(key) : undefined));
}

function onTheirFigures(
  { exact, rounded = exact }: Turned,
  was: Turned,
  common: BookDocument,
  mine: BookDocument,
): BookDocument {
  const [old, common0] = [partsOf(was.exact), partsOf(common)];
  const [now, other] = [partsOf(exact), partsOf(rounded)];
  const isRound = roundIn(old, partsOf(was.rounded ?? was.exact), partsOf(mine));
  return withParts(exact, (key) => {
    if (same(now.get(key), old.get(key))) return common0.get(key);
    return isRound(key) ? other.get(key) : undefined;
  });
}

/** A workbook with other cells and checks at some places. */
function withParts(
  document: BookDocument,
  part: (key: string) => CellDocument | CheckDocument | undefined,
): BookDocument {
  return {
    ...document,
    sheets: document.sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) => {
        if (row.cells === undefined) return row;
        const cells = Object.entries(row.cells).map(([column, cell]): [string, CellDocument] => [
          column,
          (part(`${sheet.id} ${row.id} ${column}`) as CellDocument | undefined) ?? cell,
        ]);
        return { ...row, cells: Object.fromEntries(cells) };
      }),
    })),
    checks: document.checks.map(
      (check) => (part(`check ${check.id}`) as CheckDocument | undefined) ?? check,
    ),
  };
}

/** What is said of a template, and of a workbook that came of it by itself. */
const OWN_HEAD = [
  'title',
  'customer',
  'job',
  'due',
  'agreed',
  'letterhead',
  'revision',
  'author',
  'licence',
  'locked',
  'tags',
  'lineage',
] as const;

function withHeadOf(document: BookDocument, of: BookDocument): BookDocument {
  const next: Record<string, unknown> = { ...document };
  for (const key of OWN_HEAD) {
    if (of[key] === undefined) delete next[key];
    else next[key] = of[key];
  }
  return next as BookDocument;
}

/**
 * Why two workbooks are no states of one: of the names of the one that has fewer, most are missing in the other or of
 * other cells. Templates share what every cost or calendar has, and are none for that. Undefined where they are relatives.
 */
export function notKin(one: BookDocument, other: BookDocument): string | undefined {
  const [names, others] = [namesIn(one), namesIn(other)];
  const alike = [...names].filter(([name, place]) => others.get(name) === place).length;
  const enough = names.size === 0 ? one.sheets[0]?.name === other.sheets[0]?.name : alike > 0;
  if (enough && 2 * alike >= Math.min(names.size, others.size)) return undefined;
  return `"${one.title}" and "${other.title}" did not come of one workbook: what is new in one cannot be taken into the other. Compare them instead.`;
}

function namesIn(document: BookDocument): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const { id: sheet, rows } of document.sheets) {
    for (const { id: row, cells = {} } of rows) {
      for (const [column, { name }] of Object.entries(cells)) {
        if (name !== undefined) names.set(name.toLowerCase(), `${sheet} ${row} ${column}`);
      }
    }
  }
  return names;
}
