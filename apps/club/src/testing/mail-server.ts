import { type AddressInfo, createServer } from 'node:net';
import { SMTPServer } from 'smtp-server';

/** An e-mail as a mail server was given it. */
export interface Received {
  readonly from: string;
  /** Everyone it was to go to, whatever its head says. */
  readonly to: readonly string[];
  /** The lines of its head, each whole. */
  readonly head: readonly string[];
  /** Its words, as they were written. */
  readonly text: string;
  /** Who the club said it is to the mail server. */
  readonly user: string | undefined;
  /** It came in nothing that can be read on the way. */
  readonly secure: boolean;
}

/** A mail server of a test, on this machine alone. */
export interface MailServerHere {
  /** As a setting names it, without name and password. */
  readonly url: URL;
  readonly received: Received[];
  close(): Promise<void>;
}

/** How it takes mail. */
export interface MailServerHow {
  /** Name and password it asks for. */
  readonly auth?: { readonly user: string; readonly pass: string };
  /** It talks in nothing but what can be read on the way. */
  readonly plain?: true;
  /** It takes no mail for these. */
  readonly unknown?: readonly string[];
  /** It answers this to every letter. */
  readonly answers?: { readonly code: number; readonly says: string };
  /** Done before a letter is taken. */
  readonly meanwhile?: (letter: Received) => Promise<void>;
}

/** Starts a mail server. */
export async function mailServerHere(how: MailServerHow = {}): Promise<MailServerHere> {
  const received: Received[] = [];
  const server = new SMTPServer({
    // Its own certificate is one that nobody vouches for; said here, it does not warn of it.
    logger: false,
    authOptional: how.auth === undefined,
    closeTimeout: 100,
    disabledCommands: how.plain === true ? ['STARTTLS'] : [],
    onAuth({ username, password }, _session, done) {
      if (username === how.auth?.user && password === how.auth?.pass)
        done(null, { user: username });
      else done(new Error('Name and password are wrong'));
    },
    onRcptTo({ address }, _session, done) {
      if (how.unknown?.includes(address) !== true) done();
      else done(Object.assign(new Error(`No such box: ${address}`), { responseCode: 550 }));
    },
    onData(stream, session, done) {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', () => {
        const { mailFrom, rcptTo } = session.envelope;
        const letter: Received = {
          from: mailFrom === false ? '' : mailFrom.address,
          to: rcptTo.map(({ address }) => address),
          ...readLetter(Buffer.concat(parts).toString('latin1')),
          user: typeof session.user === 'string' ? session.user : undefined,
          secure: session.secure,
        };
        Promise.resolve(how.meanwhile?.(letter)).then(
          () => {
            if (how.answers !== undefined) {
              const { code, says } = how.answers;
              done(Object.assign(new Error(says), { responseCode: code }));
              return;
            }
            received.push(letter);
            done();
          },
          (error: Error) => done(error),
        );
      });
    },
  });
  // Whoever hangs up in the middle is none of its business.
  server.on('error', () => undefined);
  const port = await new Promise<number>((done) => {
    const listening = server.listen(0, '127.0.0.1', () =>
      done((listening.address() as AddressInfo).port),
    );
  });
  return {
    url: new URL(`smtp://127.0.0.1:${port}`),
    received,
    close: () => new Promise((done) => server.close(() => done())),
  };
}

/** A port of this machine at which nobody answers. */
export async function deafPort(): Promise<number> {
  const server = createServer();
  const port = await new Promise<number>((done) => {
    server.listen(0, '127.0.0.1', () => done((server.address() as AddressInfo).port));
  });
  await new Promise<void>((done) => server.close(() => done()));
  return port;
}

/** Takes a letter to pieces: the lines of its head, and its words with RFC 2045's quoting undone. */
function readLetter(raw: string): Pick<Received, 'head' | 'text'> {
  const end = raw.indexOf('\r\n\r\n');
  const head = raw
    .slice(0, end)
    .replace(/\r\n[ \t]+/g, ' ')
    .split('\r\n');
  const body = raw.slice(end + 4);
  const coded = head.find((line) => /^content-transfer-encoding:/i.test(line)) ?? '';
  const bytes = /quoted-printable/i.test(coded)
    ? body
        .replace(/=\r\n/g, '')
        .replace(/=([0-9A-F]{2})/g, (_all, code: string) =>
          String.fromCharCode(Number.parseInt(code, 16)),
        )
    : /base64/i.test(coded)
      ? Buffer.from(body, 'base64').toString('latin1')
      : body;
  const text = Buffer.from(bytes, 'latin1').toString('utf8').replace(/\r\n/g, '\n');
  return { head, text };
}
