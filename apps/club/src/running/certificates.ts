import 'reflect-metadata';
import { randomBytes, webcrypto } from 'node:crypto';
import { isIPv4, isIPv6 } from 'node:net';
import * as x509 from '@peculiar/x509';
import { constraintsOf, vouchedFor } from './name-constraints.ts';

/** P-256 with SHA-256: what every browser takes (RFC 5480, RFC 5758). */
const KEY = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;
/** Name constraints (RFC 5280, 4.2.1.10). */
const CONSTRAINTS = '2.5.29.30';
const DAY = 86_400_000;
/** Ten years, with their leap days. */
const AUTHORITY_DAYS = 3_652;
/** Devices of one maker refuse certificates of a private authority that hold longer than 825 days; 397 is common practice. */
const CERTIFICATE_DAYS = 397;
/** The clock of a tablet may be behind. */
const BEFORE = DAY;

/** A certificate and its key, as PEM. */
export interface Pair {
  readonly cert: string;
  readonly key: string;
}

/** The names and addresses that a certificate is for. */
export interface Hosts {
  readonly names: readonly string[];
  readonly ips: readonly string[];
}

/** Makes an authority that can vouch for this machine and its own network alone. */
export async function makeAuthority(club: string, hosts: Hosts, now: number): Promise<Pair> {
  const keys = await webcrypto.subtle.generateKey(KEY, true, ['sign', 'verify']);
  const name = nameOf(`Authority of ${club}`);
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: freshNumber(),
    name,
    notBefore: new Date(now - BEFORE),
    notAfter: new Date(now + AUTHORITY_DAYS * DAY),
    signingAlgorithm: KEY,
    keys,
    extensions: [
      // It vouches for machines and for no other authority.
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(
        x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign,
        true,
      ),
      new x509.Extension(CONSTRAINTS, true, constraintsOf(hosts)),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { cert: pem(cert), key: await keyPem(keys.privateKey) };
}

/** Makes a certificate for this machine under an authority. */
export async function makeCertificate(authority: Pair, hosts: Hosts, now: number): Promise<Pair> {
  const issuer = new x509.X509Certificate(authority.cert);
  const signingKey = await webcrypto.subtle.importKey(
    'pkcs8',
    x509.PemConverter.decode(authority.key)[0] as ArrayBuffer,
    KEY,
    false,
    ['sign'],
  );
  const keys = await webcrypto.subtle.generateKey(KEY, true, ['sign', 'verify']);
  const [first = 'localhost'] = hosts.names;
  const cert = await x509.X509CertificateGenerator.create({
    serialNumber: freshNumber(),
    subject: nameOf(first),
    issuer: issuer.subjectName,
    notBefore: new Date(now - BEFORE),
    notAfter: new Date(Math.min(now + CERTIFICATE_DAYS * DAY, issuer.notAfter.getTime())),
    signingAlgorithm: KEY,
    signingKey,
    publicKey: keys.publicKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...hosts.names.map((value) => ({ type: 'dns', value }) as const),
        ...hosts.ips.map((value) => ({ type: 'ip', value }) as const),
      ]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  });
  return { cert: pem(cert), key: await keyPem(keys.privateKey) };
}

/** Those of a machine's hosts that an authority may vouch for: it was made when the machine had perhaps other names. */
export function hostsUnder(authority: Pair, hosts: Hosts): Hosts {
  const extension = new x509.X509Certificate(authority.cert).getExtension(CONSTRAINTS);
  return extension === null ? hosts : vouchedFor(hosts, new Uint8Array(extension.value));
}

const pem = (cert: x509.X509Certificate): string => `${cert.toString('pem')}\n`;

async function keyPem(key: webcrypto.CryptoKey): Promise<string> {
  const raw = await webcrypto.subtle.exportKey('pkcs8', key);
  return `${x509.PemConverter.encode(raw, 'PRIVATE KEY')}\n`;
}

/** 127 bits at random, which is more than anybody guesses; the first bit is none, so that it is above nothing. */
function freshNumber(): string {
  const bytes = randomBytes(16);
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return bytes.toString('hex');
}

const nameOf = (common: string): x509.JsonName => [{ CN: [common.slice(0, 64)] }];

/** Those of a machine's hosts that a certificate can say. */
export function certifiable({ names, ips }: Hosts): Hosts {
  const isName = (name: string): boolean =>
    /^(?=.{1,253}$)[a-z0-9_](?:[a-z0-9_-]*[a-z0-9_])?(?:\.[a-z0-9_](?:[a-z0-9_-]*[a-z0-9_])?)*$/.test(
      name,
    );
  return {
    names: [...new Set(names)].filter(isName),
    ips: [...new Set(ips)].filter((ip) => isIPv4(ip) || isIPv6(ip)),
  };
}
