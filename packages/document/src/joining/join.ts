import { type RefusedResult, refuse } from '../faults/catalogue.ts';
import { type BookDocument, LIMITS } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { keptByIds } from '../loading/kept-by-ids.ts';
import { type MakeId, randomId } from '../state/ids.ts';
import { BookState } from '../state/state.ts';
import { circleThrough } from './circle.ts';
import { Coming, type Plan } from './coming.ts';
import { withNamesListed } from './listed.ts';
import { type Meeting, meetingsOf } from './meetings.ts';
import { type Home, homeKey, namedCells } from './named.ts';
import { type Told, type ToldCode, toldOf } from './sentences.ts';
import { type TableMove, tableMoves } from './tables.ts';

/** What came of two workbooks that were put together. */
export interface Joined {
  /** It is refused else. */
  readonly ok: true;
  /** The workbook with what came in. */
  readonly document: BookDocument;
  /** Ids of the sheets that came in, as they are there. */
  readonly sheets: readonly string[];
  /** What follows what, what is called otherwise now, and what stands twice. */
  readonly told: readonly Told[];
}

/**
 * Puts the sheets of another workbook into one (rules J1 to J6): what one of them works out, the other takes
 * by its name, and rows of tables of one kind go into one table.
 * @param into the workbook they come into; what is said of it as a whole stays
 * @param from in the same units
 * @param beside a later state of `into`: what comes in gets no id of what came there since
 */
export function joinBooks(
  into: BookDocument,
  from: BookDocument,
  make: MakeId = randomId,
  beside: BookDocument = into,
): Joined | RefusedResult {
  if (into.units !== from.units) {
    return refuse('W31', from.title, UNITS[from.units], UNITS[into.units]);
  }
  const [book, other] = [into, from].map((one) => keptByIds(BookState.of(one)).document());
  if (book === undefined || other === undefined) throw new RangeError('there are two workbooks');
  const moves = tableMoves(book, other, make, beside);
  const meetings = meetingsOf(book, other);
  for (;;) {
    const joined = joinedAs(book, other, { moves, meetings, make, beside });
    if (!joined.ok) return joined;
    const tied = tiesOf(joined, meetings);
    const round = circleThrough(joined.document, [...tied.values()].flat());
    if (round === undefined) {
      const named = withNamesListed(other, renamesOf(joined));
      if (named === other) return done(joined, meetings, moves);
      // Heads of tables may be names: which column goes into which is to be looked at anew.
      const again = tableMoves(book, named, make, beside);
      const settled = joinedAs(book, named, { moves: again, meetings, make, beside });
      return settled.ok ? done(settled, meetings, again) : settled;
    }
    keepApart(tied, round);
  }
}

const done = (joined: Tied, meetings: readonly Meeting[], moves: readonly TableMove[]): Joined => {
  const { document, sheets } = joined;
  return { ok: true, document, sheets, told: told(joined, meetings, moves) };
};

/** Names of cells that came in with those that they have there. */
const renamesOf = ({ renames }: Tied): readonly (readonly [from: string, to: string])[] =>
  [...renames].flatMap(([{ comes }, now]) =>
    now === undefined ? [] : [[comes.name, now] as const],
  );

const UNITS = { us: 'inches and pounds', metric: 'millimeters and kilograms' } as const;

/** Where the two cells of each name that ties the workbooks stand: the one that has it, and the one that follows. */
function tiesOf(
  { document, linkOf }: Tied,
  meetings: readonly Meeting[],
): ReadonlyMap<Meeting, readonly Home[]> {
  const named = namedCells(document);
  return new Map(
    meetings.flatMap((one): [Meeting, Home[]][] => {
      if (one.fate !== 'follows' && one.fate !== 'leads') return [];
      const homes = [named.get(nameKey(one.comes.name)), linkOf.get(one)];
      return [[one, homes.filter((home) => home !== undefined)]];
    }),
  );
}

/** Of the names tied over a circle, the last is kept apart after all. */
function keepApart(tied: ReadonlyMap<Meeting, readonly Home[]>, round: ReadonlySet<string>): void {
  for (const [one, homes] of [...tied].reverse()) {
    if (!homes.some((home) => round.has(homeKey(home)))) continue;
    one.fate = 'apart';
    one.why = 'J5';
    return;
  }
}

interface Tied {
  readonly ok: true;
  readonly document: BookDocument;
  readonly sheets: readonly string[];
  /** Where the cells stand that follow another one. */
  readonly linkOf: ReadonlyMap<Meeting, Home>;
  readonly renames: ReadonlyMap<Meeting, string | undefined>;
}

function joinedAs(book: BookDocument, other: BookDocument, plan: Plan): Tied | RefusedResult {
  const coming = new Coming(book, other, plan);
  const sheets = [...coming.sheetsThere(), ...coming.sheetsThatCome()];
  const checks = coming.checks();
  const tables = [...book.tables, ...coming.tables()];
  if (sheets.length > LIMITS.sheets) return refuse('W24', 'sheets', LIMITS.sheets);
  if (checks.length > LIMITS.checks) return refuse('W24', 'checks', LIMITS.checks);
  if (tables.length > LIMITS.tables) return refuse('W24', 'tables', LIMITS.tables);
  const results = coming.results();
  const promises = [...new Set([...(book.promises ?? []), ...(other.promises ?? [])])];
  const document: BookDocument = {
    ...book,
    ...(promises.length === 0 ? {} : { promises }),
    ...(results.length === 0 ? {} : { results }),
    sheets,
    checks,
    tables,
  };
  const { linkOf } = coming;
  const names = coming.sheetsThatCome().map(({ id }) => id);
  return { ok: true, document, sheets: names, linkOf, renames: coming.renames };
}

/** What came of the names, then the parts that stand twice. */
function told(
  { renames }: Tied,
  meetings: readonly Meeting[],
  moves: readonly TableMove[],
): readonly Told[] {
  const found = new Map<ToldCode, string[]>();
  const tell = (code: ToldCode, which: string): void => {
    const all = found.get(code);
    if (all === undefined) found.set(code, [which]);
    else all.push(which);
  };
  for (const one of meetings) {
    const { name } = one.comes;
    const now = renames.get(one);
    if (one.fate === 'leads') tell('J2', name);
    // What is worked out there and taken here is what putting together is for.
    if (one.fate === 'follows' && one.there.cell.formula === undefined) tell('J1', name);
    if (one.fate === 'apart') {
      if (now === undefined) tell('J7', name);
      else tell(one.why, `${name}, which becomes ${now}`);
    }
  }
  for (const { twice } of moves) for (const part of twice) tell('J6', part);
  return toldOf(found);
}
