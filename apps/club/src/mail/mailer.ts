import { createTransport } from 'nodemailer';

/** A mail server, and the address that its mail comes from. */
export interface MailServer {
  /** `smtp://` or `smtps://`, with name and password where it asks for them. */
  readonly url: URL;
  readonly from: string;
}

/** One e-mail: plain words to one person. */
export interface Letter {
  readonly to: string;
  /** Who it comes from, beside the address. */
  readonly name: string;
  readonly subject: string;
  readonly text: string;
}

/** Sends one e-mail. @throws NotSent where the mail server did not take it */
export type Mailer = (letter: Letter) => Promise<void>;

/** Why an e-mail was not sent. */
export class NotSent extends Error {
  override readonly name = 'NotSent';
  /** The server was not reached, did not take this address, or refused for another reason. */
  readonly why: 'away' | 'address' | 'refused';
  /** What may stand in a log: what a mail server answers in words names the address. */
  readonly about: Readonly<Record<string, string | number>>;

  constructor(why: NotSent['why'], about: NotSent['about']) {
    super(`The mail server did not take it: ${why}`);
    this.why = why;
    this.about = about;
  }
}

/** All of it has to be over by then, ms: a keeper waits for the answer. */
const USUAL_MOST = 20_000;

const PORTS: Readonly<Record<string, number>> = { 'smtp:': 587, 'smtps:': 465 };

/**
 * One that hands letters to a mail server, each over a connection of its own: nothing waits here to be sent.
 * @param most what one letter may take, ms
 */
export function mailerOf({ url, from }: MailServer, most: number = USUAL_MOST): Mailer {
  const host = url.hostname.replace(/^\[|\]$/g, '');
  const isHere = /^(?:localhost|127(?:\.\d+){3}|::1)$/.test(host);
  const secure = url.protocol === 'smtps:';
  const hasName = url.username !== '';
  const transport = createTransport({
    host,
    port: url.port === '' ? PORTS[url.protocol] : Number(url.port),
    secure,
    // A link lets in whoever reads it, and so does a password: neither goes over a network that can be read on the way.
    requireTLS: !secure && !isHere,
    // Mail servers of a machine itself have a certificate that nobody vouches for, and nothing leaves the machine.
    tls: { rejectUnauthorized: !isHere },
    ...(hasName
      ? {
          auth: {
            user: decodeURIComponent(url.username),
            pass: decodeURIComponent(url.password),
          },
        }
      : {}),
    connectionTimeout: most,
    greetingTimeout: most,
    socketTimeout: most,
    dnsTimeout: most,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  return async ({ to, name, subject, text }) => {
    try {
      await transport.sendMail({
        // Name and address apart: a text of both would be taken to pieces again, and may come to more than one.
        from: { name, address: from },
        to: { name: '', address: to },
        envelope: { from, to: [to] },
        subject,
        text,
        // RFC 3834: nobody's note of absence is to answer it.
        headers: { 'Auto-Submitted': 'auto-generated' },
        signal: AbortSignal.timeout(most),
      });
    } catch (error) {
      throw notSent(error);
    }
  };
}

/** What nodemailer calls it where no server was reached, or it went silent. */
const AWAY = new Set(['ECONNECTION', 'ETIMEDOUT', 'ESOCKET', 'EDNS', 'EABORT']);

function notSent(error: unknown): NotSent {
  const {
    code = 'unknown',
    command = '',
    responseCode = 0,
  } = error as {
    readonly code?: string;
    readonly command?: string;
    readonly responseCode?: number;
  };
  const about = { code, command, answered: responseCode };
  if (AWAY.has(code)) return new NotSent('away', about);
  // RFC 5321, 4.2.1: what begins with 5 will be answered so again; 4 is for now.
  const forGood = responseCode >= 500 && command === 'RCPT TO';
  return new NotSent(forGood ? 'address' : 'refused', about);
}
