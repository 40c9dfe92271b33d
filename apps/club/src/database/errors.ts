/**
 * What goes wrong with a database and is nobody's mistake: others were quicker, or it is not there. Everything else that
 * it throws is thrown on as it came.
 */

/** Others changed the same rows each time it was tried. Nothing was changed. */
export class DatabaseBusy extends Error {
  override readonly name = 'DatabaseBusy';

  constructor(cause?: unknown) {
    super(
      'The club is busy: others were changing the same things each time it was tried. Nothing was changed; try again in a moment.',
      { cause },
    );
  }
}

/** The database does not answer, or takes nothing more. */
export class DatabaseAway extends Error {
  override readonly name = 'DatabaseAway';
}

/** Told where one statement after another would change what should have changed as one. */
export const BROKEN_OFF =
  'This transaction was broken off by an error before. Let that error go on to whoever called `write`.';

const FULL =
  'The disk of the club’s database is full. Nothing was changed; whoever runs the club has to make room.';
const GONE =
  'The club’s database does not answer. Whoever runs the club should look whether it is running, then try again.';
const SLOW =
  'The club’s database took too long to answer. Nothing was changed; try again in a while.';
const SHUT =
  'The club’s database refused the club’s name or password, or has no database of that name. Whoever runs the club should look at DATABASE_URL.';
const UNREADABLE =
  'The file of the club’s database cannot be read or written. Whoever runs the club should look at the disk, and whether the folder is the club’s to write.';
const DAMAGED =
  'The file of the club’s database is damaged. Stop the club, keep the file, and restore the last backup into an empty folder.';

/** By SQLSTATE, or its first letters (PostgreSQL 15, appendix A). */
const STATES: readonly (readonly [RegExp, string])[] = [
  [/^53100$/, FULL],
  [/^57014$/, SLOW],
  [/^(?:28...|3D000)$/, SHUT],
  [/^(?:08...|57P0.|53[234]00|25P03|57P05|58030)$/, GONE],
];

/** By SQLite's names of result codes (sqlite.org/rescode.html). */
const CODES: readonly (readonly [RegExp, string])[] = [
  [/^SQLITE_FULL/, FULL],
  [/^SQLITE_(?:IOERR|CANTOPEN|PERM|READONLY_(?!RECOVERY))/, UNREADABLE],
  [/^SQLITE_(?:CORRUPT|NOTADB)/, DAMAGED],
];

/** What Node says of a connection that cannot be made or broke. */
const SYSTEM = /^(?:ECONN|ENOENT|EPIPE|ETIMEDOUT|EHOST|ENET|ENOTFOUND|EAI_|EACCES|EADDRNOTAVAIL)/;
/** What the client of PostgreSQL says of one, without a code. */
const CLIENT =
  /^(?:Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|Client was closed|Cannot use a pool after)/;

function codeOf(error: unknown): string {
  const code = (error as { readonly code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : '';
}

/** What is thrown in the place of an error: that the database is away, or the error itself. */
export function told(error: unknown): unknown {
  if (error instanceof DatabaseAway || error instanceof DatabaseBusy) return error;
  const code = codeOf(error);
  const says =
    [...STATES, ...CODES].find(([pattern]) => pattern.test(code))?.[1] ??
    (SYSTEM.test(code) || (error instanceof Error && CLIENT.test(error.message))
      ? GONE
      : undefined);
  return says === undefined ? error : new DatabaseAway(says, { cause: error });
}

/** Whether the same may go well when it is tried again: others were quicker. */
export function passes(error: unknown): boolean {
  return /^(?:40001|40P01|SQLITE_BUSY.*)$/.test(codeOf(error));
}

/**
 * Whether two were making the same table at once: PostgreSQL looks for `IF NOT EXISTS` before it locks, and then tells
 * one of them that the name is taken (seen with PostgreSQL 15).
 */
export function madeTwice(error: unknown): boolean {
  return (
    passes(error) ||
    /^(?:23505|42P07|42710)$/.test(codeOf(error)) ||
    (codeOf(error) === 'XX000' && /concurrently/.test((error as Error).message))
  );
}
