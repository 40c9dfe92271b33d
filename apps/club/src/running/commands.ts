import { createReadStream, createWriteStream } from 'node:fs';
import { rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { exportAll, importAll } from '../backup/index.ts';
import { clubName } from '../club.ts';
import { openDatabase } from '../database/open.ts';
import { SQLITE_FILE } from '../database/sqlite.ts';
import { keeperCode, members } from '../people/members.ts';
import { httpsSays, makeHttps, ownCertificate } from './https.ts';
import { CommandRefused } from './refused.ts';
import { namesOnNetwork, type Settings, written } from './settings.ts';
import { exportShelf } from './shelf-files.ts';
import { openClub } from './start.ts';

/** What a command has to say once it is done. */
type Says = Promise<readonly string[]>;

/** A command that does one thing and ends. */
export interface Command {
  /** What has to be named after it: `FILE`. */
  readonly takes?: string;
  readonly does: (settings: Settings, named: string) => Says;
}

/** All commands but `start`, by what is typed. */
export const COMMANDS: Readonly<Record<string, Command>> = {
  https: { does: https },
  backup: { takes: 'FILE', does: backup },
  restore: { takes: 'FILE', does: restore },
  'keeper-link': { does: keeperLink },
  export: { takes: 'FOLDER', does: exportTo },
};

/** A command about what is kept must not found a new club where a folder was mistyped. */
async function refuseNoClub({ folder, databaseUrl }: Settings): Promise<void> {
  if (databaseUrl !== undefined || (await isThere(join(folder, SQLITE_FILE)))) return;
  throw new CommandRefused(
    `There is no club in ${folder}. Set KERFBOOK_CLUB_FOLDER to the folder in which it lies.`,
  );
}

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

async function opened<T>(
  settings: Settings,
  work: (open: Awaited<ReturnType<typeof openClub>>) => Promise<T>,
): Promise<T> {
  await refuseNoClub(settings);
  const open = await openClub(settings);
  try {
    return await work(open);
  } finally {
    await open.database.close();
  }
}

/** Makes a certificate; a club need not be there yet. */
async function https(settings: Settings): Says {
  const made = await makeHttps(settings.folder, settings.name, namesOnNetwork());
  return httpsSays(settings.folder, settings.port, made);
}

async function backup(settings: Settings, file: string): Says {
  return opened(settings, async ({ database }) => {
    // It has hashes of passwords in it.
    const stream = createWriteStream(file, { flags: 'wx', mode: 0o600 });
    let begun = false;
    stream.once('open', () => {
      begun = true;
    });
    try {
      await exportAll(database, stream);
    } catch (error) {
      if (begun) await rm(file, { force: true });
      throw filesOwn(error, file);
    }
    return [
      `All that the club keeps is in ${file}. Keep it as safe as the club itself: what passwords are checked against is in it.`,
    ];
  });
}

async function restore({ folder, databaseUrl: url }: Settings, file: string): Says {
  // Looked at first: a name mistyped must not leave an empty club behind.
  await stat(file).catch((error: unknown) => {
    throw filesOwn(error, file);
  });
  const database = await openDatabase(url === undefined ? { folder } : { url });
  try {
    const rows = await importAll(database, createReadStream(file)).catch((error: unknown) => {
      throw filesOwn(error, file);
    });
    return [
      `The club is restored: ${counted(rows.member, 'person', 'people')}, ${counted(rows.template, 'template')}, ${counted(rows.book, 'workbook')}. Everyone signs in again, and tokens are made anew.`,
    ];
  } finally {
    await database.close();
  }
}

async function keeperLink(settings: Settings): Says {
  return opened(settings, async ({ club }) => {
    const keepers = (await members(club)).members.filter(({ role }) => role === 'keeper');
    const code = await keeperCode(club);
    const scheme = (await ownCertificate(settings.folder)) === undefined ? 'http' : 'https';
    const own = `${scheme}://${written('localhost')}:${settings.port}/`;
    return [
      ...(keepers.length === 0
        ? []
        : [
            `Keepers of the shelf are ${keepers.map(({ name }) => name).join(', ')}. This makes one more.`,
          ]),
      `Whoever opens this link first is a new keeper of the shelf of ${await clubName(club)}. It holds for seven days:`,
      `  ${settings.address?.href ?? own}#join=${code}`,
    ];
  });
}

async function exportTo(settings: Settings, folder: string): Says {
  return opened(settings, async ({ club }) => {
    const many = await exportShelf(club, folder).catch((error: unknown) => {
      throw filesOwn(error, folder);
    });
    return [
      `${counted(many, 'template is', 'templates are')} in ${folder}, and index.json says whose each is and under which license.`,
    ];
  });
}

const counted = (many = 0, one: string, more = `${one}s`): string =>
  `${many} ${many === 1 ? one : more}`;

/** A failure of the file that was named, in words. */
function filesOwn(error: unknown, path: string): unknown {
  const { code } = error as NodeJS.ErrnoException;
  const says: Readonly<Record<string, string>> = {
    EEXIST: 'is there already, and nothing is overwritten. Choose another name.',
    ENOENT: 'is not there, or its folder is not. Check the name.',
    EISDIR: 'is a folder. Name a file.',
    ENOTDIR: 'is a file, or lies in one. Name a folder.',
    EACCES: 'may not be read or written by you. Choose another place.',
    EPERM: 'may not be read or written by you. Choose another place.',
    EROFS: 'is on a disk that can only be read. Choose another place.',
    ENOSPC: 'does not fit on its disk. Make room, or choose another place.',
  };
  const why = code === undefined ? undefined : says[code];
  return why === undefined ? error : new CommandRefused(`${path} ${why}`);
}
