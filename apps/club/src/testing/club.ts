import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { DOCUMENT_VERSION } from '@kerfbook/document';
import { type AnswerOf, type Asked, pathOf, ROUTES, type RouteName } from '@kerfbook/protocol';
import type { FastifyInstance } from 'fastify';
import { type Club, ensureClub } from '../club.ts';
import { newId, signOf } from '../database/ids.ts';
import type { Database } from '../database/open.ts';
import { buildApp, type Served } from '../http/app.ts';
import { hashPassword, nameKey } from '../people/passwords.ts';
import { startSession } from '../people/sessions.ts';

/** What was answered: its status, and what it says. */
export interface Answered<N extends RouteName> {
  readonly status: number;
  readonly answer: AnswerOf<N>;
  /** Where it was refused: why. */
  readonly refused?: string;
  readonly says?: string;
  readonly wait?: number;
  readonly head?: number;
  readonly headers: Readonly<Record<string, unknown>>;
}

/** A browser, or a command line, that asks the club: it keeps its cookie as a browser does. */
export class Visitor {
  readonly #app: FastifyInstance;
  readonly origin: string;
  #cookie: string | undefined;
  token: string | undefined;
  id = '';

  constructor(app: FastifyInstance, origin = 'http://localhost') {
    this.#app = app;
    this.origin = origin;
  }

  get cookie(): string | undefined {
    return this.#cookie;
  }

  /** Has a session's secret, as after signing in over plain http. */
  signedIn(secret: string): void {
    this.#cookie = `kerfbook=${secret}`;
  }

  /** Asks one thing; refusals are answers here. */
  async ask<N extends RouteName>(
    name: N,
    asked: Asked<N>,
    headers: Readonly<Record<string, string>> = {},
  ): Promise<Answered<N>> {
    const { params, query, body } = asked as {
      readonly params?: Record<string, string | number>;
      readonly query?: Record<string, string>;
      readonly body?: object;
    };
    const secure = this.origin.startsWith('https');
    const response = await this.#app.inject({
      method: ROUTES[name].method,
      url: pathOf(name, params),
      ...(query === undefined ? {} : { query }),
      ...(body === undefined ? {} : { payload: body }),
      headers: {
        host: new URL(this.origin).host,
        ...(secure ? { 'x-forwarded-proto': 'https' } : {}),
        ...(this.#cookie === undefined ? {} : { cookie: this.#cookie }),
        ...(this.token === undefined
          ? { origin: this.origin }
          : { authorization: `Bearer ${this.token}` }),
        ...headers,
      },
    });
    for (const { name: called, value, maxAge, expires } of response.cookies) {
      const over = maxAge === 0 || (expires !== undefined && expires.getTime() <= 0);
      this.#cookie = over || value === '' ? undefined : `${called}=${value}`;
    }
    const told = response.json();
    if (response.statusCode === 200) {
      return { status: 200, answer: told, headers: response.headers };
    }
    return { status: response.statusCode, answer: told, ...told, headers: response.headers };
  }

  /** Asks what has to go well. @throws Error with what was answered */
  async get<N extends RouteName>(name: N, asked: Asked<N>): Promise<AnswerOf<N>> {
    const { status, answer, says } = await this.ask(name, asked);
    if (status !== 200) throw new Error(`${name}: ${status} ${says}`);
    // What is answered has the shape that the protocol says.
    return ROUTES[name].answer.parse(answer) as AnswerOf<N>;
  }
}

/** A clock that stands still until it is moved. */
export class Clock {
  at = Date.UTC(2026, 10, 2, 9);
  readonly now = (): number => this.at;
  pass(ms: number): void {
    this.at += ms;
  }
}

/** A club with its server and its first keeper, on a database with nothing in it but other test clubs. */
export interface TestClub {
  readonly club: Club;
  readonly app: FastifyInstance;
  readonly clock: Clock;
  readonly keeper: Visitor;
  visitor(origin?: string): Visitor;
  /** Somebody who is in the club: as after joining, without the work that a password takes each time. */
  member(name: string, role?: 'member' | 'keeper'): Promise<Visitor>;
}

/** A password that nobody would try first. */
export const PASSWORD = 'dovetail rainfall lantern';

let clubs = 0;
/** What is kept of {@link PASSWORD}, worked out once. */
let kept: Promise<string> | undefined;

/** Founds a club on a database. */
export async function testClub(
  database: Database,
  about: Partial<Served> & { readonly id?: string; readonly clock?: Clock } = {},
): Promise<TestClub> {
  const { id, clock = new Clock(), ...served } = about;
  clubs += 1;
  const club: Club = { id: id ?? `club-${clubs}`, database, now: clock.now };
  await ensureClub(club, 'Riverbend Woodworkers');
  const app = await buildApp(club, {
    hosts: new Set(['localhost', 'club.test', '192.0.2.7:4180']),
    log: false,
    ...served,
  });
  const visitor = (origin?: string): Visitor => new Visitor(app, origin);
  const member: TestClub['member'] = async (name, role = 'member') => {
    const one = visitor();
    one.id = newId();
    kept ??= hashPassword(PASSWORD);
    const password = await kept;
    const secret = await database.write(async (t) => {
      await t
        .insertInto('member')
        .values({
          club: club.id,
          id: one.id,
          name,
          name_key: nameKey(name),
          role,
          state: 'in',
          password,
          joined: clock.at,
          gone: null,
        })
        .execute();
      return startSession(club, t, one.id, 'a test');
    });
    one.signedIn(secret);
    return one;
  };
  return { club, app, clock, keeper: await member('Keeper', 'keeper'), visitor, member };
}

const TEMPLATES = join(import.meta.dirname, '../../../../templates');

/** The saved text of a workbook that ships. */
export const textOf = (key: string): string => readFileSync(join(TEMPLATES, `${key}.json`), 'utf8');

/** A text as it goes over the wire, with its sign. */
export function packed(text: string): { readonly text: string; readonly sign: string } {
  return { text: deflateRawSync(Buffer.from(text)).toString('base64'), sign: signOf(text) };
}

/** The saved text of a small workbook: what is tested with it does not grow with it. */
export function smallBook(title = 'Bench'): string {
  const row = { id: 'r1', cells: { c1: { value: 48, role: 'input', name: 'length' } } };
  const sheet = { id: 's1', name: 'Bench', columns: [{ id: 'c1' }], rows: [row] };
  return JSON.stringify({
    kerfbook: DOCUMENT_VERSION,
    title,
    units: 'us',
    sheets: [sheet],
    checks: [],
    tables: [],
  });
}

/** An edition of a small workbook. */
export function edition(about: { readonly title?: string } = {}) {
  return {
    text: packed(smallBook(about.title)).text,
    card: {
      kind: 'bench',
      size: '48 × 14 × 18 in',
      longest: 1219,
      woods: ['white oak'],
      joints: ['mortise and tenon'],
      tags: ['garden'],
      results: [['Price to quote', '$412.00']] as [string, string][],
    },
    note: 'First of its kind.',
    changes: [],
  };
}
