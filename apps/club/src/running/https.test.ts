import { X509Certificate } from 'node:crypto';
import {
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { Agent, request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeAuthority, makeCertificate } from './certificates.ts';
import { authorityFile, certificateTrouble, makeHttps, ownCertificate } from './https.ts';
import { readSettings } from './settings.ts';
import { startClub } from './start.ts';

const DAY = 86_400_000;
const NOW = Date.UTC(2026, 10, 2, 9);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfbook-https-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const file = (name: string): string => join(folder, 'https', name);
const shop = { names: ['workshop', 'workshop.local'], ips: ['192.168.4.20', 'fd00::1:2'] };

interface Answered {
  readonly status: number;
  readonly body: Buffer;
  readonly cookies: readonly string[];
}

/** Asks over https as a device that trusts an authority, or none of its own. */
function ask(
  port: number,
  path: string,
  trusts: string | undefined,
  more: { readonly host?: string; readonly body?: object } = {},
): Promise<Answered> {
  const { host = 'localhost', body } = more;
  return new Promise((answer, fail) => {
    const asked = request(
      {
        host: '127.0.0.1',
        servername: /^[\d.]+$/.test(host) ? '' : host,
        port,
        path,
        method: body === undefined ? 'GET' : 'POST',
        headers: {
          host: `${host}:${port}`,
          origin: `https://${host}:${port}`,
          ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        },
        agent: new Agent(trusts === undefined ? {} : { ca: trusts }),
      },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('end', () =>
          answer({
            status: response.statusCode ?? 0,
            body: Buffer.concat(parts),
            cookies: response.headers['set-cookie'] ?? [],
          }),
        );
      },
    );
    asked.on('error', fail);
    asked.end(body === undefined ? undefined : JSON.stringify(body));
  });
}

const settings = () =>
  readSettings({ KERFBOOK_CLUB_FOLDER: folder, PORT: '0', KERFBOOK_CLUB_LISTEN: '127.0.0.1' });

describe('https of a club', () => {
  it('answers who trusts its authority, and is refused by who does not', async () => {
    await makeHttps(folder, 'Riverbend', shop);
    const authority = readFileSync(file('authority.pem'), 'utf8');
    const running = await startClub(settings(), folder, false);
    try {
      const { port } = running;
      const well = await ask(port, '/club/health', authority);
      expect(JSON.parse(well.body.toString())).toMatchObject({ well: true });
      await expect(ask(port, '/club/health', undefined)).rejects.toMatchObject({
        code: 'UNABLE_TO_VERIFY_LEAF_SIGNATURE',
      });
      // Another authority of the same name is another one.
      const other = await makeAuthority('Riverbend', shop, Date.now());
      await expect(ask(port, '/club/health', other.cert)).rejects.toThrow();

      const link = running.says.find((line) => line.includes('#join=')) ?? '';
      expect(link).toContain('https://localhost');
      const joined = await ask(port, '/club/join', authority, {
        body: { code: link.split('#join=')[1], name: 'Ada', password: 'dovetail rainfall lantern' },
      });
      expect(joined.status).toBe(200);
      expect(joined.cookies).toHaveLength(1);
      expect(joined.cookies[0]).toMatch(/^__Host-kerfbook=/);
      expect(joined.cookies[0]).toMatch(/; Secure/);
      expect(joined.cookies[0]).toMatch(/; HttpOnly/);

      const handed = await ask(port, '/club/authority.crt', authority);
      expect(new X509Certificate(handed.body).raw).toEqual(new X509Certificate(authority).raw);
      expect(handed.body.includes('PRIVATE')).toBe(false);
    } finally {
      await running.close();
    }
  });

  it('hands its certificate out over plain http too, and says where there is none', async () => {
    const running = await startClub(settings(), folder, false);
    try {
      const at = `http://127.0.0.1:${running.port}/club/authority.crt`;
      expect((await fetch(at)).status).toBe(404);
      await makeHttps(folder, 'Riverbend', shop);
      const answer = await fetch(at);
      expect(answer.headers.get('content-type')).toBe('application/x-x509-ca-cert');
      expect(Buffer.from(await answer.arrayBuffer())).toEqual(await authorityFile(folder));
    } finally {
      await running.close();
    }
  });

  it('makes an authority that vouches for machines of its network alone', async () => {
    await makeHttps(folder, 'Riverbend', shop, NOW);
    const authority = new X509Certificate(readFileSync(file('authority.pem')));
    const one = new X509Certificate(readFileSync(file('certificate.pem')));
    expect(authority.ca).toBe(true);
    expect(one.ca).toBe(false);
    expect(one.checkIssued(authority)).toBe(true);
    expect(one.verify(authority.publicKey)).toBe(true);
    for (const name of ['localhost', ...shop.names]) expect(one.checkHost(name)).toBe(name);
    for (const ip of ['127.0.0.1', '::1', ...shop.ips]) expect(one.checkIP(ip)).toBeDefined();
    expect(Date.parse(one.validTo)).toBe(NOW + 397 * DAY);
    expect(Date.parse(authority.validTo) - NOW).toBeGreaterThan(3_650 * DAY);
    if (process.platform !== 'win32') {
      expect(statSync(file('authority-key.pem')).mode & 0o777).toBe(0o600);
      expect(statSync(file('key.pem')).mode & 0o777).toBe(0o600);
    }
  });

  it('is refused for a place on the internet, even with the key of the authority', async () => {
    await makeHttps(folder, 'Riverbend', shop);
    const authority = {
      cert: readFileSync(file('authority.pem'), 'utf8'),
      key: readFileSync(file('authority-key.pem'), 'utf8'),
    };
    const now = Date.now();
    for (const [host, hosts] of [
      ['shop.example.org', { names: ['shop.example.org'], ips: [] }],
      ['203.0.113.9', { names: [], ips: ['203.0.113.9'] }],
    ] as const) {
      const false_ = await makeCertificate(authority, hosts, now);
      writeFileSync(file('certificate.pem'), false_.cert);
      writeFileSync(file('key.pem'), false_.key);
      const running = await startClub(settings(), folder, false);
      try {
        await expect(ask(running.port, '/club/health', authority.cert, { host })).rejects.toThrow(
          /permitted subtree violation/,
        );
      } finally {
        await running.close();
      }
    }
  });

  it('renews under the same authority, for the addresses there are now', async () => {
    const first = await makeHttps(folder, 'Riverbend', shop, NOW);
    const authority = readFileSync(file('authority.pem'), 'utf8');
    const before = readFileSync(file('certificate.pem'), 'utf8');
    const moved = { names: ['workshop', 'workshop.local'], ips: ['10.1.2.3'] };
    expect(certificateTrouble(before, moved, NOW)).toMatch(/does not know 10\.1\.2\.3,/);
    expect(certificateTrouble(before, shop, NOW)).toBeUndefined();
    expect(certificateTrouble(before, shop, NOW + 380 * DAY)).toMatch(/holds until/);
    expect(certificateTrouble(before, shop, NOW + 398 * DAY)).toMatch(/has run out/);

    const again = await makeHttps(folder, 'Riverbend', moved, NOW + 380 * DAY);
    expect([first.isNew, again.isNew]).toEqual([true, false]);
    expect(again.print).toBe(first.print);
    expect(readFileSync(file('authority.pem'), 'utf8')).toBe(authority);
    const after = (await ownCertificate(folder))?.cert ?? '';
    expect(certificateTrouble(after, moved, NOW + 380 * DAY)).toBeUndefined();
    expect(new X509Certificate(after).checkIP('192.168.4.20')).toBeUndefined();
    expect(new X509Certificate(after).verify(new X509Certificate(authority).publicKey)).toBe(true);
  });

  it('leaves out a name that its authority may not vouch for, and says so', async () => {
    await makeHttps(folder, 'Riverbend', shop, NOW);
    const renamed = { names: ['barn', 'barn.local'], ips: ['203.0.113.9', '10.1.2.3'] };
    const { left, hosts } = await makeHttps(folder, 'Riverbend', renamed, NOW);
    expect(left).toEqual(['barn', '203.0.113.9']);
    expect(hosts.names).toEqual(['localhost', 'barn.local']);
    expect(hosts.ips).toEqual(['127.0.0.1', '::1', '10.1.2.3']);
  });

  it('changes nothing where half of the authority is gone, is of another, or is at its end', async () => {
    await makeHttps(folder, 'Riverbend', shop, NOW);
    const certificate = readFileSync(file('certificate.pem'), 'utf8');
    renameSync(file('authority-key.pem'), file('kept'));
    await expect(makeHttps(folder, 'Riverbend', shop, NOW)).rejects.toThrow(/only one of two/);
    const other = await makeAuthority('Riverbend', shop, NOW);
    writeFileSync(file('authority-key.pem'), other.key);
    await expect(makeHttps(folder, 'Riverbend', shop, NOW)).rejects.toThrow(/does not belong/);
    unlinkSync(file('authority-key.pem'));
    renameSync(file('kept'), file('authority-key.pem'));
    await expect(makeHttps(folder, 'Riverbend', shop, NOW + 3_640 * DAY)).rejects.toThrow(
      /too soon/,
    );
    expect(readFileSync(file('certificate.pem'), 'utf8')).toBe(certificate);
  });
});
