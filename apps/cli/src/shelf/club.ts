import { shelfText } from '@kerfbook/keeping/shelf';
import {
  type AnswerOf,
  type Asked,
  ask,
  type ClubAddress,
  ClubRefused,
  Id,
  type RouteName,
  Secret,
} from '@kerfbook/protocol';
import { type BookDocument, loadText } from '@kerfbook/workbook';
import { Misuse } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';

/** What a command cannot go on from, in words; and how it ends then. */
export class Stopped extends Error {
  override readonly name = 'Stopped';
  readonly code: ExitCode;
  /** Why the club refused, where it was the club. */
  readonly refused: ClubRefused['code'] | undefined;

  constructor(code: ExitCode, says: string, refused?: ClubRefused['code']) {
    super(says);
    this.code = code;
    this.refused = refused;
  }
}

/** A club, asked in the name of whoever has the token. */
export interface Club {
  /** Where it answers. */
  readonly base: string;
  ask<N extends RouteName>(name: N, asked: Asked<N>): Promise<AnswerOf<N>>;
}

/** Longer than a large workbook takes over a slow line. */
const PATIENCE = 120_000;

/** The option that every command of the shelf has. */
export const CLUB_OPTION = { club: { type: 'string' } } as const;

/**
 * The club that is named, by an option or else by KERFBOOK_CLUB.
 * @param elsewhere the club that an address of one of its templates leads to
 * @throws Misuse where there is none, or no token for it
 */
export function clubOf(option: string | undefined, io: Io, elsewhere?: string): Club {
  const named = said(option) ?? said(io.setting('KERFBOOK_CLUB'));
  const base = named === undefined ? elsewhere : baseOf(named);
  if (base === undefined) {
    throw new Misuse(
      'Which club is not said. Give its address with --club, or in KERFBOOK_CLUB: https://club.example.',
    );
  }
  // The token is for the club that was named: it must not go wherever an address leads.
  if (elsewhere !== undefined && elsewhere !== base) {
    throw new Misuse(
      `The address is of ${elsewhere}, and the club is ${base}. Give --club ${elsewhere} if your token is of that club.`,
    );
  }
  const token = said(io.setting('KERFBOOK_TOKEN'));
  if (token === undefined) {
    throw new Misuse(
      'There is no token in KERFBOOK_TOKEN. Make one on the page of your account in the club, and put it there.',
    );
  }
  if (!Secret.safeParse(token).success) {
    throw new Misuse(
      'What KERFBOOK_TOKEN holds is no token of a club. Copy it again as the club showed it, or make a new one.',
    );
  }
  if (isReadOnTheWay(base)) {
    io.err(
      `What goes to ${base} can be read on the way, your token too. Use https if it has that.`,
    );
  }
  const address: ClubAddress = { base, token };
  return { base, ask: (name, asked) => askOne(address, name, asked) };
}

const said = (text: string | undefined): string | undefined =>
  text === undefined || text.trim() === '' ? undefined : text.trim();

/** The address as questions begin with it. */
function baseOf(text: string): string {
  const url = URL.canParse(text) ? new URL(text) : undefined;
  const isPlain = url?.username === '' && url.password === '' && url.search + url.hash === '';
  if (url === undefined || !isPlain || !/^https?:$/.test(url.protocol)) {
    throw new Misuse(
      `"${text}" is not the address of a club. Write it as the browser shows it: https://club.example, or http://localhost:4180.`,
    );
  }
  return `${url.origin}${url.pathname}`.replace(/\/+$/, '');
}

function isReadOnTheWay(base: string): boolean {
  const { protocol, hostname } = new URL(base);
  return protocol === 'http:' && !/^(?:localhost|127(?:\.\d+){3}|\[::1\])$/.test(hostname);
}

async function askOne<N extends RouteName>(
  address: ClubAddress,
  name: N,
  asked: Asked<N>,
): Promise<AnswerOf<N>> {
  try {
    return await ask(address, name, asked, AbortSignal.timeout(PATIENCE));
  } catch (error) {
    throw stoppedBy(error, address.base);
  }
}

/** What the club refused is told in its own words; what is about asking it, in those of the command line. */
function stoppedBy(error: unknown, base: string): unknown {
  if (error instanceof DOMException && error.name === 'TimeoutError') {
    return new Stopped(2, `${base} did not answer within two minutes. Try again in a while.`);
  }
  if (!(error instanceof ClubRefused)) return error;
  switch (error.code) {
    case 'away':
      return new Stopped(2, `No club answers at ${base}. Check the address and the network.`);
    case 'garbled':
      return new Stopped(
        2,
        `What answers at ${base} is no club of this version of Kerfbook. Check the address, or have both brought up to date.`,
      );
    case 'signedOut':
      return unknownToken();
    default:
      return new Stopped(1, error.message, error.code);
  }
}

/** The club does not know whoever asks. */
export const unknownToken = (): Stopped =>
  new Stopped(
    2,
    'The club does not know the token in KERFBOOK_TOKEN, or no longer. Make a new one on the page of your account.',
  );

/** Carries out a command; what it stops at is told. */
export async function carefully(io: Io, does: () => Promise<ExitCode>): Promise<ExitCode> {
  try {
    return await does();
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    io.err(error.message);
    return error.code;
  }
}

/** The id of a template, and the club it is in where an address says so. */
export function templateOf(text: string): { readonly id: string; readonly club?: string } {
  if (Id.safeParse(text).success) return { id: text };
  const found = /^(https?:\/\/.+?)\/club\/templates\/([A-Za-z0-9_-]{8,64})$/.exec(text);
  const [, club, id] = found ?? [];
  if (club === undefined || id === undefined) {
    throw new Misuse(
      `"${text}" is neither the id of a template, as kerfbook shelf list shows it, nor its address: https://club.example/club/templates/ID.`,
    );
  }
  return { id, club: baseOf(club) };
}

/** A number of a revision, where one is given. */
export function revisionNumber(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^[1-9]\d{0,8}$/.test(text)) {
    throw new Misuse(`--${option} takes the number of a revision, 1 or more. It got "${text}".`);
  }
  return Number(text);
}

/** A revision as it lies on the shelf, checked like any workbook from elsewhere. */
export async function revisionOf(
  club: Club,
  template: string,
  number: number,
): Promise<{ readonly document: BookDocument; readonly text: string }> {
  const { text: packed, sign } = await club.ask('revision', { params: { template, number } });
  const got = await shelfText(packed);
  if (got === undefined || got.sign !== sign) {
    throw new Stopped(
      2,
      'What came from the shelf was damaged on its way. Try again; if it stays so, tell a keeper of the shelf.',
    );
  }
  const loaded = loadText(got.text);
  if (!loaded.ok) throw new Stopped(1, `Revision ${number} is not opened: ${loaded.says}`);
  return { document: loaded.document, text: got.text };
}
