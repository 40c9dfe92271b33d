import type { z } from 'zod';
import { REFUSALS, RefusalBody, type RefusalCode } from './refusal.ts';
import { ROUTES, type RouteName } from './routes.ts';

type In<N extends RouteName, K extends 'params' | 'query' | 'body'> = z.input<
  (typeof ROUTES)[N][K]
>;
/** What a route answers. */
export type AnswerOf<N extends RouteName> = z.output<(typeof ROUTES)[N]['answer']>;

type Part<K extends string, T> = T extends undefined
  ? { readonly [k in K]?: undefined }
  : Record<string, never> extends T
    ? { readonly [k in K]?: T }
    : { readonly [k in K]: T };

/** What goes along with a question: parts of the path, of the query, a body. */
export type Asked<N extends RouteName> = Part<'params', In<N, 'params'>> &
  Part<'query', In<N, 'query'>> &
  Part<'body', In<N, 'body'>>;

/** Why a question came to nothing; `away` where the club could not be reached. */
export class ClubRefused extends Error {
  override readonly name = 'ClubRefused';
  /** The reason. */
  readonly code: RefusalCode | 'away' | 'garbled';
  /** Seconds to let pass before it is tried again. */
  readonly wait: number | undefined;
  /** What stands now, where it was changed meanwhile. */
  readonly head: number | undefined;

  constructor(
    code: ClubRefused['code'],
    says: string,
    more: { readonly wait?: number | undefined; readonly head?: number | undefined } = {},
  ) {
    super(says);
    this.code = code;
    this.wait = more.wait;
    this.head = more.head;
  }
}

/** How a club is reached. */
export interface ClubAddress {
  /** Where it answers, without a slash at its end; `''` for the page's own. */
  readonly base: string;
  /** A token of the command line; left out where a session is used. */
  readonly token?: string;
  /** `fetch` where left out. */
  readonly fetch?: typeof fetch;
}

/**
 * Asks a club one thing and checks what it answers.
 * @throws ClubRefused with a sentence for the person
 */
export async function ask<N extends RouteName>(
  address: ClubAddress,
  name: N,
  asked: Asked<N>,
  signal?: AbortSignal,
): Promise<AnswerOf<N>> {
  const { method, answer } = ROUTES[name];
  const {
    params = {},
    query = {},
    body,
  } = asked as {
    readonly params?: Readonly<Record<string, string | number>>;
    readonly query?: Readonly<Record<string, string | number | undefined>>;
    readonly body?: unknown;
  };
  const url = address.base + pathOf(name, params) + queryOf(query);
  let response: Response;
  try {
    response = await (address.fetch ?? fetch)(url, {
      method,
      credentials: 'same-origin',
      cache: 'no-store',
      headers: {
        ...(body === undefined ? {} : { 'Content-Type': 'application/json' }),
        ...(address.token === undefined ? {} : { Authorization: `Bearer ${address.token}` }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(signal === undefined ? {} : { signal }),
    });
  } catch (error) {
    if (signal?.aborted === true) throw error;
    throw new ClubRefused('away', 'The club cannot be reached. Check the network, then try again.');
  }
  const told: unknown = await response.json().catch(() => undefined);
  if (!response.ok) throw refusedBy(response.status, told);
  const read = answer.safeParse(told);
  if (!read.success) {
    throw new ClubRefused(
      'garbled',
      'What answered is no club of this version of Kerfbook. Load the page again, then try once more.',
    );
  }
  return read.data as AnswerOf<N>;
}

/** The path of a route with its parts filled in. */
export function pathOf(
  name: RouteName,
  params: Readonly<Record<string, string | number>> = {},
): string {
  return ROUTES[name].path.replace(/:(\w+)/g, (_whole, part: string) =>
    encodeURIComponent(String(params[part] ?? '')),
  );
}

function queryOf(query: Readonly<Record<string, string | number | undefined>>): string {
  const said = Object.entries(query).filter(([, value]) => value !== undefined);
  if (said.length === 0) return '';
  return `?${new URLSearchParams(said.map(([key, value]) => [key, String(value)]))}`;
}

function refusedBy(status: number, told: unknown): ClubRefused {
  const read = RefusalBody.safeParse(told);
  if (read.success) return new ClubRefused(read.data.refused, read.data.says, read.data);
  const code = (Object.keys(REFUSALS) as RefusalCode[]).find((one) => REFUSALS[one] === status);
  return new ClubRefused(
    code ?? 'garbled',
    'What answered is no club, or one in trouble. Try again in a while.',
  );
}
