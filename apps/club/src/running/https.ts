import { X509Certificate } from 'node:crypto';
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Hosts, Pair } from './certificates.ts';

/** The files of a club's https, in the folder `https` of its folder. */
const AUTHORITY: Names = ['authority.pem', 'authority-key.pem'];
const CERTIFICATE: Names = ['certificate.pem', 'key.pem'];
type Names = readonly [cert: string, key: string];

/** How long before its end a certificate is to be made anew, ms. */
const SOON = 30 * 86_400_000;

/** Why no certificate was made; nothing was changed. */
export class HttpsRefused extends Error {
  override readonly name = 'HttpsRefused';
}

/** A certificate that was made. */
export interface Made {
  /** The authority was made along with it: every device has to trust it. */
  readonly isNew: boolean;
  /** SHA-256 of the authority's certificate, by which a person knows it. */
  readonly print: string;
  readonly hosts: Hosts;
  /** Names and addresses of the machine that the authority may not vouch for: it was made before they came. */
  readonly left: readonly string[];
  /** ms since 1970. */
  readonly ends: number;
}

const folderOf = (folder: string): string => join(folder, 'https');

/**
 * Makes a certificate for this machine, under the club's own authority, which is made where there is none.
 * @throws HttpsRefused with a sentence where the authority that is there cannot be used
 */
export async function makeHttps(
  folder: string,
  club: string,
  reached: Hosts,
  now: number = Date.now(),
): Promise<Made> {
  // It brings much along, and nobody needs it to keep a club running.
  const { certifiable, hostsUnder, makeAuthority, makeCertificate } = await import(
    './certificates.ts'
  );
  const wanted = certifiable({
    names: ['localhost', ...reached.names],
    ips: ['127.0.0.1', '::1', ...reached.ips],
  });
  const home = folderOf(folder);
  await mkdir(home, { recursive: true, mode: 0o700 });
  const there = await readPair(home, AUTHORITY);
  const authority = there ?? (await makeAuthority(club, wanted, now));
  const hosts = hostsUnder(authority, wanted);
  const about = new X509Certificate(authority.cert);
  if (new Date(about.validTo).getTime() < now + SOON) {
    throw new HttpsRefused(
      `The club's authority holds until ${about.validTo}, which is too soon. Move the folder ${home} away and run this again: a new authority is made, and every device has to trust it once.`,
    );
  }
  const made = await makeCertificate(authority, hosts, now);
  refuseUnvouched(made, authority, hosts);
  if (there === undefined) await writePair(home, AUTHORITY, authority);
  await writePair(home, CERTIFICATE, made);
  return {
    isNew: there === undefined,
    print: about.fingerprint256,
    hosts,
    left: [...wanted.names, ...wanted.ips].filter(
      (one) => !hosts.names.includes(one) && !hosts.ips.includes(one),
    ),
    ends: new Date(new X509Certificate(made.cert).validTo).getTime(),
  };
}

/** A certificate that its authority did not sign would be refused by every device. */
function refuseUnvouched({ cert }: Pair, authority: Pair, hosts: Hosts): void {
  const [one, by] = [new X509Certificate(cert), new X509Certificate(authority.cert)];
  const forAll =
    hosts.names.every((name) => one.checkHost(name) !== undefined) &&
    hosts.ips.every((ip) => one.checkIP(ip) !== undefined);
  if (!one.checkIssued(by) || !one.verify(by.publicKey) || !forAll) {
    throw new HttpsRefused(
      'The key of the authority does not belong to its certificate. Put back both files as they were, or move the folder "https" away and run this again.',
    );
  }
}

async function readPair(home: string, [cert, key]: Names): Promise<Pair | undefined> {
  const [one, other] = await Promise.all([read(join(home, cert)), read(join(home, key))]);
  if (one === undefined && other === undefined) return undefined;
  if (one === undefined || other === undefined) {
    throw new HttpsRefused(
      `Of the authority only one of two files is there: ${cert} and ${key} in ${home}. Put back the other one, or move the folder away and run this again.`,
    );
  }
  return { cert: one, key: other };
}

const read = (file: string): Promise<string | undefined> =>
  readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });

/** Keys are read by whoever runs the club alone, from their first byte on. */
async function writePair(home: string, [cert, key]: Names, pair: Pair): Promise<void> {
  for (const [name, text, mode] of [
    [key, pair.key, 0o600],
    [cert, pair.cert, 0o644],
  ] as const) {
    const file = join(home, name);
    const part = `${file}.new`;
    await writeFile(part, text, { mode });
    await rename(part, file);
  }
}

/** The authority's certificate as devices take it (DER, RFC 5280); never its key. */
export async function authorityFile(folder: string): Promise<Buffer | undefined> {
  const text = await read(join(folderOf(folder), AUTHORITY[0]));
  return text === undefined ? undefined : new X509Certificate(text).raw;
}

/** Certificate and key that the club made itself; nothing where it has none. */
export async function ownCertificate(folder: string): Promise<Pair | undefined> {
  const home = folderOf(folder);
  const [cert, key] = await Promise.all(CERTIFICATE.map((name) => read(join(home, name))));
  return cert === undefined || key === undefined ? undefined : { cert, key };
}

/** What is to be done about the certificate, where something is. */
export function certificateTrouble(
  cert: string,
  { names, ips }: Hosts,
  now: number,
): string | undefined {
  const one = new X509Certificate(cert);
  const ends = new Date(one.validTo).getTime();
  const again = 'Run "npm run club -- https" and start the club again.';
  if (ends <= now) return `The certificate for https has run out. ${again}`;
  if (ends - now < SOON) return `The certificate for https holds until ${one.validTo}. ${again}`;
  const missing = [
    ...names.filter((name) => one.checkHost(name) === undefined),
    ...ips.filter((ip) => one.checkIP(ip) === undefined),
  ];
  if (missing.length === 0) return undefined;
  return `The certificate for https does not know ${missing.join(', ')}, which this machine has now. ${again}`;
}

/** What is told once a certificate was made. */
export function httpsSays(folder: string, port: number, made: Made): readonly string[] {
  const name = made.hosts.names.find((one) => one.endsWith('.local')) ?? 'localhost';
  return [
    made.isNew
      ? `The club has its own authority now, and a certificate for this machine. They lie in ${folderOf(folder)}.`
      : 'The certificate was made anew, under the same authority: devices that trust it go on as before.',
    `It is for ${[...made.hosts.names, ...made.hosts.ips].join(', ')}, and holds until ${new Date(made.ends).toISOString().slice(0, 10)}. Run this again before then, or when an address changed.`,
    ...(made.left.length === 0
      ? []
      : [
          `It is not for ${made.left.join(', ')}: the authority was made before this machine had that. To have it too, move the folder away and run this again; every device then has to trust the new authority.`,
        ]),
    'Start the club again: it answers to https from then on, and to plain http no more.',
    '',
    'Each device has to trust the authority once:',
    `  Open https://${name}:${port}/club/authority.crt there. The browser warns this one time, as it does not know the club yet; go on.`,
    '  iPad or iPhone: allow the profile, install it under Settings > General > VPN & Device Management, then switch it on under Settings > General > About > Certificate Trust Settings.',
    '  Android: Settings > Security > Encryption & credentials > Install a certificate > CA certificate, then choose the file.',
    '  A desk: put the file into the list of authorities of the system, or of the browser where that keeps its own.',
    `Compare before you trust it: its SHA-256 is ${made.print}`,
    'It can vouch for this machine and for addresses within your network, and for nothing on the internet. Give nobody authority-key.pem.',
  ];
}
