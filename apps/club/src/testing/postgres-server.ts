import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import {
  chownSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import pg from 'pg';

/** A PostgreSQL server that tests started. */
export interface PostgresServer {
  /** The address of its database. */
  readonly url: string;
  /** Stops it at once, as a power cut would. */
  kill(): Promise<void>;
  /** Kills one of its processes that serves a client; the server then ends all others and puts itself right. */
  killOne(): Promise<void>;
  /** Starts it again over the same data. */
  start(): Promise<void>;
  /** Stops it and removes its data. */
  remove(): Promise<void>;
}

/** Where the programs of a PostgreSQL server lie; undefined where there are none. */
export function postgresPrograms(): string | undefined {
  const versions = '/usr/lib/postgresql';
  const installed = existsSync(versions)
    ? readdirSync(versions)
        .toSorted((one, other) => Number(other) - Number(one))
        .map((version) => join(versions, version, 'bin'))
    : [];
  const path = (process.env.PATH ?? '').split(delimiter);
  return [...installed, ...path].find((folder) =>
    ['initdb', 'postgres'].every((program) => existsSync(join(folder, program))),
  );
}

/** A server refuses to run as root: there it runs as a user who owns nothing. */
function userOf(): { readonly uid?: number; readonly gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const users = readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .map((line) => line.split(':'));
  const user =
    users.find(([name]) => name === 'postgres') ?? users.find(([name]) => name === 'nobody');
  if (user === undefined) {
    throw new Error('PostgreSQL does not run as root, and there is no user postgres or nobody.');
  }
  return { uid: Number(user[2]), gid: Number(user[3]) };
}

/**
 * Starts a server of its own on a socket in a new folder under the system's temporary one. It ends with this process,
 * however that ends.
 * @throws Error saying how to come by one, where there are no programs for it
 * @param durable whether it waits for the disk, as it does for people; tests that kill nothing need not
 */
export async function startPostgres(durable = false): Promise<PostgresServer> {
  const programs = postgresPrograms();
  if (programs === undefined) {
    throw new Error(
      'These tests need PostgreSQL, and its programs were found neither on the PATH nor in /usr/lib/postgresql. Install it (apt install postgresql), set KERFBOOK_TEST_POSTGRES to the address of a server that tests may write to, or leave the tests on PostgreSQL out with KERFBOOK_WITHOUT_POSTGRES=1.',
    );
  }
  const user = userOf();
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-pg-'));
  if (user.uid !== undefined) chownSync(folder, user.uid, user.gid ?? user.uid);
  const data = join(folder, 'data');
  const pid = join(folder, 'pid');
  execFileSync(
    join(programs, 'initdb'),
    ['-D', data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--no-locale', '-N'],
    { ...user, cwd: folder, stdio: 'pipe' },
  );
  // Waits for the end of this process, which no exit handler sees for certain.
  const guard = spawn(
    '/bin/sh',
    [
      '-c',
      'cat >/dev/null; kill -QUIT "$(cat "$1/pid")" 2>/dev/null; sleep 0.2; rm -rf "$1"',
      'sh',
      folder,
    ],
    { detached: true, stdio: ['pipe', 'ignore', 'ignore'] },
  );
  guard.unref();
  (guard.stdin as unknown as { unref?: () => void } | null)?.unref?.();

  let server: ChildProcess | undefined;
  const start = async (): Promise<void> => {
    let says = '';
    const child = spawn(
      join(programs, 'postgres'),
      [
        ['-D', data, '-k', folder],
        ['-c', 'listen_addresses=', '-c', 'max_connections=200'],
        ['-c', 'shared_buffers=32MB', '-c', `fsync=${durable ? 'on' : 'off'}`],
      ].flat(),
      { ...user, cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] },
    );
    server = child;
    writeFileSync(pid, String(child.pid));
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      says = (says + text).slice(-4000);
    });
    for (let tried = 0; !says.includes('ready to accept connections'); tried += 1) {
      if (tried > 600 || child.exitCode !== null) {
        throw new Error(`PostgreSQL did not start: ${says}`);
      }
      await setTimeout(50);
    }
    child.unref();
    (child.stderr as unknown as { unref?: () => void } | null)?.unref?.();
  };
  const kill = async (): Promise<void> => {
    const child = server;
    if (child === undefined || child.exitCode !== null || child.signalCode !== null) return;
    await new Promise<void>((done) => {
      child.once('exit', () => done());
      // What `pg_ctl stop -m immediate` sends.
      child.kill('SIGQUIT');
    });
  };
  const url = `postgresql://postgres@localhost/postgres?host=${encodeURIComponent(folder)}`;
  const asked = async (sql: string): Promise<Record<string, unknown>[]> => {
    const client = new pg.Client({ connectionString: url });
    client.on('error', () => undefined);
    await client.connect();
    try {
      return (await client.query(sql)).rows;
    } finally {
      await client.end();
    }
  };
  const answers = async (): Promise<void> => {
    for (let tried = 0; ; tried += 1) {
      try {
        await asked('select 1');
        return;
      } catch (error) {
        if (tried > 200) throw error;
        await setTimeout(50);
      }
    }
  };
  await start();
  return {
    url,
    kill,
    async killOne() {
      const [one] = await asked(
        "select pid from pg_stat_activity where application_name = 'kerfbook-club' limit 1",
      );
      if (one === undefined) throw new Error('No process of the server serves a club.');
      process.kill(Number(one.pid), 'SIGKILL');
      await setTimeout(20);
      await answers();
    },
    start,
    async remove() {
      await kill();
      await new Promise<void>((done) => {
        guard.once('exit', () => done());
        guard.stdin?.end();
      });
    },
  };
}
