import type { FastifyInstance } from 'fastify';
import { type Club, ensureClub } from '../club.ts';
import { migrate } from '../database/migrations/migrate.ts';
import { type Database, openDatabase } from '../database/open.ts';
import { buildApp } from '../http/app.ts';
import { mailerOf } from '../mail/mailer.ts';
import { forgetTries } from '../people/limits.ts';
import { firstKeeperCode } from '../people/members.ts';
import { forgetEnded } from '../people/sessions.ts';
import { authorityFile, certificateTrouble, ownCertificate } from './https.ts';
import { hostsOf, namesOnNetwork, type Settings, written } from './settings.ts';

/** A club that answers. */
export interface Running {
  readonly app: FastifyInstance;
  readonly club: Club;
  readonly port: number;
  /** What is told at the start: addresses, what each can do, and the link of the first keeper. */
  readonly says: readonly string[];
  close(): Promise<void>;
}

/** How often what has ended is taken out of the database, ms. */
const SWEEP = 60 * 60_000;

/** Opens the database and makes its tables. */
export async function openClub(
  settings: Settings,
  now: () => number = Date.now,
): Promise<{ readonly database: Database; readonly club: Club }> {
  const { databaseUrl: url, folder } = settings;
  const database = await openDatabase(url === undefined ? { folder } : { url });
  try {
    await migrate(database);
    const club: Club = { id: settings.club, database, now };
    await ensureClub(club, settings.name);
    return { database, club };
  } catch (error) {
    await database.close();
    throw error;
  }
}

/**
 * Starts a club.
 * @param appFolder of the built app
 * @throws an error with a sentence where its database cannot be opened; `EADDRINUSE` where the port is taken
 */
export async function startClub(
  settings: Settings,
  appFolder: string,
  log: boolean = true,
): Promise<Running> {
  const { database, club } = await openClub(settings);
  const https = await ownCertificate(settings.folder).catch(async (error: unknown) => {
    await database.close();
    throw error;
  });
  const hosts = new Set<string>();
  const app = await buildApp(club, {
    appFolder,
    hosts,
    authority: () => authorityFile(settings.folder),
    behindProxy: settings.address !== undefined,
    ...(settings.address === undefined ? {} : { address: settings.address }),
    ...(settings.mail === undefined ? {} : { mailer: mailerOf(settings.mail) }),
    ...(https === undefined ? {} : { https }),
    ...(log ? {} : { log: false }),
  });
  const sweep = setInterval(() => {
    for (const work of [forgetTries, forgetEnded]) {
      work(club).catch((error: unknown) => app.log.error({ err: error }, 'sweeping'));
    }
  }, SWEEP);
  sweep.unref();
  const close = async (): Promise<void> => {
    clearInterval(sweep);
    // Questions that are being answered are answered to their end.
    await app.close();
    await database.close();
  };
  try {
    await app
      .listen({ port: settings.port, host: settings.listen, ipv6Only: false })
      .catch(async (error: NodeJS.ErrnoException) => {
        // A machine without IPv6 has the other family alone.
        if (settings.listen !== '::' || error.code === 'EADDRINUSE') throw error;
        await app.listen({ port: settings.port, host: '0.0.0.0' });
      });
  } catch (error) {
    await close();
    throw error;
  }
  const at = app.server.address();
  const port = typeof at === 'object' && at !== null ? at.port : settings.port;
  for (const host of hostsOf(settings, port)) hosts.add(host);
  const code = await firstKeeperCode(club);
  return {
    app,
    club,
    port,
    says: [
      ...greeting(settings, port, https !== undefined, code),
      ...(https === undefined ? [] : troubleWith(https.cert)),
    ],
    close,
  };
}

function troubleWith(cert: string): readonly string[] {
  const says = certificateTrouble(cert, namesOnNetwork(), Date.now());
  return says === undefined ? [] : ['', says];
}

/** What is told at the start. */
function greeting(
  settings: Settings,
  port: number,
  isHttps: boolean,
  code: string | undefined,
): readonly string[] {
  const scheme = isHttps ? 'https' : 'http';
  const here = `${scheme}://localhost:${port}/`;
  const { names, ips } = namesOnNetwork();
  const onNetwork =
    settings.listen === '::' || settings.listen === '0.0.0.0' ? [...names, ...ips] : [];
  const full = 'everything: passkeys, working without a network';
  const plain = 'signing in with a password; no passkeys, nothing without a network';
  const lines = [
    ...(settings.address === undefined
      ? []
      : [`${settings.address.href}  ${settings.address.protocol === 'https:' ? full : plain}`]),
    `${here}  on this machine: ${full}`,
    ...onNetwork.map((host) => {
      const isName = !/^[\d.]+$/.test(host) && !host.includes(':');
      const can = isHttps ? (isName ? full : 'all but passkeys, which need a name') : plain;
      return `${scheme}://${written(host)}:${port}/  ${can}`;
    }),
  ];
  return [
    'The club is at',
    ...lines.map((line) => `  ${line}`),
    ...(isHttps || settings.address !== undefined || onNetwork.length === 0
      ? []
      : ['"npm run club -- https" makes a certificate, so that other devices can do everything.']),
    ...(settings.databaseUrl === undefined
      ? [`All that the club keeps lies in ${settings.folder}`]
      : ['All that the club keeps lies in the database of DATABASE_URL.']),
    ...(code === undefined
      ? []
      : [
          '',
          'Nobody is in the club yet. This link makes whoever opens it first the keeper of the shelf:',
          `  ${settings.address?.href ?? here}#join=${code}`,
        ]),
  ];
}
