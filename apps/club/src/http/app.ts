import { randomUUID } from 'node:crypto';
import { resolve } from 'node:path';
import cookie from '@fastify/cookie';
import { REFUSALS, type RefusalBody, ROUTES, type Route, type RouteName } from '@kerfbook/protocol';
import { HEADERS, servedFile } from '@kerfbook/serving';
import fastify, {
  type FastifyInstance,
  type FastifyReply,
  type FastifyRequest,
  LogController,
} from 'fastify';
import type { z } from 'zod';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import { DatabaseAway, DatabaseBusy, told } from '../database/errors.ts';
import { imageFile } from '../kept/images.ts';
import type { Mailer } from '../mail/mailer.ts';
import type { Site } from '../people/passkeys.ts';
import { whoHasToken, whoHolds } from '../people/sessions.ts';
import { Refused } from '../refused.ts';
import type { Ask, Handler } from './asked.ts';
import { HANDLERS } from './handlers.ts';
import { type Counted, Counters } from './metrics.ts';

/** How a club is served. */
export interface Served {
  /** Folder of the built app; without one nothing but the club's routes is answered. */
  readonly appFolder?: string;
  /** Hosts that are answered to, with their ports: a page from elsewhere can have its own name point here. */
  readonly hosts: ReadonlySet<string>;
  /** A proxy stands before it, on this machine, and tells who asks by `X-Forwarded-*`. */
  readonly behindProxy?: boolean;
  /** The address that members type, where one is set. */
  readonly address?: URL;
  /** Sends e-mail, where a mail server is set. */
  readonly mailer?: Mailer;
  /** Certificate and key, where the server itself does https. */
  readonly https?: { readonly cert: string; readonly key: string };
  /** The certificate of the club's own authority, where it has one: devices have to trust it. */
  readonly authority?: () => Promise<Buffer | undefined>;
  /** Where log lines go; `false` for none. */
  readonly log?: false | { readonly write: (line: string) => void };
}

/** The cookie over https: bound to this host, and to https (ASVS 5.0, 3.3.1 and 3.3.3). */
const SECURE_COOKIE = '__Host-kerfbook';
/** Over plain http there can be no such prefix. */
const PLAIN_COOKIE = 'kerfbook';
const COOKIE_DAYS = 90;

/** The built page says nothing of a club; this one does. */
const META = '<meta name="kerfbook-club" content="here">';

/** Builds the server without listening, so that tests ask it without a port. */
export async function buildApp(club: Club, served: Served): Promise<FastifyInstance> {
  const app = fastify({
    ...(served.https === undefined ? {} : { https: served.https }),
    logger: served.log === false ? false : logging(served.log),
    logController: new LogController({ disableRequestLogging: true }),
    genReqId: () => randomUUID(),
    trustProxy: served.behindProxy === true ? 'loopback' : false,
    bodyLimit: 64 * 1024,
    // What a browser keeps open must not keep the server from stopping.
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 2_000 },
    // An address that cannot be read at all comes to no route.
    frameworkErrors: (error: unknown, request: FastifyRequest, reply: FastifyReply) =>
      refuse(reply, refusedBy(error, request)),
  } as Parameters<typeof fastify>[0]) as unknown as FastifyInstance;
  const counters = new Counters();
  await app.register(cookie);
  // JSON and nothing else: a form of another page cannot send it without asking first.
  app.removeContentTypeParser('text/plain');
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(HEADERS);
    // Of an address on the internet alone: a shop that gives its own certificate up would lock itself out for half a year.
    if (served.behindProxy === true && isHttps(request))
      reply.header('Strict-Transport-Security', 'max-age=15552000');
    refuseForeignHost(request, served.hosts);
  });
  app.addHook('onResponse', async (request, reply) => {
    const at: Counted = { route: routeOf(request), status: reply.statusCode };
    counters.count(at, reply.elapsedTime);
    request.log.info(
      {
        route: at.route,
        method: request.method,
        status: at.status,
        ms: Math.round(reply.elapsedTime),
      },
      'answered',
    );
  });
  for (const name of Object.keys(ROUTES) as RouteName[]) {
    const route: Route = ROUTES[name];
    const handle = HANDLERS[name] as Handler<never>;
    app.route({
      method: route.method,
      url: route.path,
      bodyLimit: route.most,
      handler: async (request, reply) => {
        const ask = await askOf(club, served, route, request, reply);
        reply.header('Cache-Control', 'no-store');
        return await handle(ask as never);
      },
    });
  }
  app.get('/club/images/:image', async (request, reply) => {
    await askerOf(club, request, { who: 'member', token: true });
    const { image } = request.params as { readonly image: string };
    const { bytes, type } = await imageFile(club, image);
    return reply
      .headers({
        'Content-Type': type,
        // An image never changes under its id; it is for whoever is signed in.
        'Cache-Control': 'private, max-age=604800, immutable',
        'Content-Disposition': 'inline',
        'Content-Security-Policy': "default-src 'none'; sandbox",
      })
      .send(bytes);
  });
  app.get('/club/authority.crt', async (_request, reply) => {
    const bytes = await served.authority?.();
    if (bytes === undefined) {
      throw new Refused('notThere', 'This club has no authority of its own for https.');
    }
    return reply
      .headers({
        'Content-Type': 'application/x-x509-ca-cert',
        'Content-Disposition': 'attachment; filename="kerfbook-club-authority.crt"',
        'Cache-Control': 'no-store',
      })
      .send(bytes);
  });
  app.get('/club/metrics', async (request, reply) => {
    // For whoever runs the machine: from the machine itself, or a keeper.
    if (!isLoopback(request.ip)) await askerOf(club, request, { who: 'keeper', token: true });
    return reply.type('text/plain; version=0.0.4; charset=utf-8').send(counters.text());
  });
  app.setNotFoundHandler(async (request, reply) => {
    const { appFolder } = served;
    const isFile = request.method === 'GET' || request.method === 'HEAD';
    const ofClub = request.url.startsWith('/club/');
    if (!ofClub && isFile && appFolder !== undefined) {
      const file = await servedFile(
        resolve(appFolder),
        request.url,
        request.headers['accept-encoding']?.toString(),
        (page) => page.replace('<meta charset="utf-8" />', `<meta charset="utf-8" />${META}`),
      );
      if (file !== undefined) {
        reply.code(200).headers(file.headers);
        return reply.send(request.method === 'HEAD' ? undefined : file.bytes);
      }
    }
    return refuse(reply, new Refused('notThere', 'There is nothing at this address.'));
  });
  app.setErrorHandler((error, request, reply) => refuse(reply, refusedBy(error, request)));
  return app;
}

/** Structured lines without secrets: no bodies, no headers, no addresses with what stands behind the question mark. */
function logging(stream: { readonly write: (line: string) => void } | undefined) {
  return {
    level: 'info',
    base: undefined,
    redact: ['req.headers', 'body'],
    serializers: { req: () => undefined, res: () => undefined },
    ...(stream === undefined ? {} : { stream }),
  };
}

const routeOf = (request: FastifyRequest): string =>
  request.routeOptions.url ?? (request.url.startsWith('/club/') ? '/club/…' : 'file');

function refuse(reply: FastifyReply, refused: Refused): FastifyReply {
  const body: RefusalBody = {
    refused: refused.code,
    says: refused.message,
    ...(refused.wait === undefined ? {} : { wait: refused.wait }),
    ...(refused.head === undefined ? {} : { head: refused.head }),
  };
  return reply
    .code(REFUSALS[refused.code])
    .headers({
      'Cache-Control': 'no-store',
      ...(refused.wait === undefined ? {} : { 'Retry-After': String(refused.wait) }),
    })
    .type('application/json; charset=utf-8')
    .send(JSON.stringify(body));
}

/** What went wrong, as it may be told; what nobody expected is written into the log and told in one sentence. */
function refusedBy(thrown: unknown, request: FastifyRequest): Refused {
  const error = told(thrown);
  if (error instanceof Refused) return error;
  if (error instanceof DatabaseAway || error instanceof DatabaseBusy) {
    request.log.error({ err: error }, 'database');
    return new Refused('notNow', error.message, { wait: 5 });
  }
  const { statusCode, code } = error as { readonly statusCode?: number; readonly code?: string };
  if (code === 'FST_ERR_CTP_BODY_TOO_LARGE' || statusCode === 413) {
    return new Refused('tooLarge', 'That is larger than the club takes.');
  }
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500) {
    return new Refused(
      'unreadable',
      'What was sent cannot be read. Load the page again, then try once more.',
    );
  }
  request.log.error({ err: error }, 'unexpected');
  return new Refused(
    'trouble',
    `Something went wrong in the club. Nothing was changed; try again. Whoever runs the club finds it in the log under ${request.id}.`,
  );
}

function refuseForeignHost(request: FastifyRequest, hosts: ReadonlySet<string>): void {
  const host = (request.host ?? '').toLowerCase();
  if (!hosts.has(host)) {
    throw new Refused(
      'unreadable',
      'The club is not at this address. Whoever runs it finds the addresses where it was started.',
    );
  }
}

const isLoopback = (address: string): boolean =>
  address === '::1' || address === '127.0.0.1' || address === '::ffff:127.0.0.1';

/** What goes between page and club cannot be read on the way: https, or this machine itself. */
const isHttps = (request: FastifyRequest): boolean => request.protocol === 'https';

function hostName(request: FastifyRequest): string {
  return request.hostname.replace(/^\[|\]$/g, '').toLowerCase();
}

/** Passkeys are bound to a name; browsers give them over https, and on localhost. */
function siteAt(request: FastifyRequest): Site | undefined {
  const name = hostName(request);
  const isAddress = /^[\d.]+$/.test(name) || name.includes(':');
  if (isAddress || !(isHttps(request) || name === 'localhost')) return undefined;
  return { name, origin: `${request.protocol}://${request.host}` };
}

/** A page of another origin may send questions along with a browser's cookie: it says where it is from (ASVS 5.0, 3.5.1). */
function refuseForeignPage(request: FastifyRequest): void {
  const { origin, 'sec-fetch-site': site } = request.headers;
  const own = `${request.protocol}://${request.host}`;
  const isOwn =
    origin === undefined ? site === undefined || site === 'same-origin' : origin === own;
  if (!isOwn || (site !== undefined && site !== 'same-origin' && site !== 'none')) {
    throw new Refused('notAllowed', 'This was asked from another page. Open the club itself.');
  }
}

const tokenOf = (request: FastifyRequest): string | undefined =>
  /^Bearer ([A-Za-z0-9_-]{22,86})$/.exec(request.headers.authorization ?? '')?.[1];

/** Who asks, and whether he may: nobody is told more than that he has to sign in, or may not. */
async function askerOf(
  club: Club,
  request: FastifyRequest,
  route: Pick<Route, 'who' | 'token'>,
): Promise<Asker | undefined> {
  const token = tokenOf(request);
  let asker: Asker | undefined;
  if (token !== undefined) {
    if (!route.token) {
      throw new Refused('notAllowed', 'A token cannot do this. Do it on the page.');
    }
    asker = await whoHasToken(club, token);
  } else {
    // Reading, too: what is answered is for the club's own page.
    refuseForeignPage(request);
    const secret = request.cookies[isHttps(request) ? SECURE_COOKIE : PLAIN_COOKIE];
    asker = secret === undefined ? undefined : await whoHolds(club, secret);
  }
  if (route.who !== 'anyone' && asker === undefined) {
    throw new Refused('signedOut', 'You are not signed in, or no longer. Sign in, then try again.');
  }
  if (route.who === 'keeper' && asker?.role !== 'keeper') {
    throw new Refused('notAllowed', 'Keepers of the shelf alone may do this.');
  }
  return asker;
}

/** An address that others can open; what says `localhost` each device takes for itself. */
function reachedAt({ address }: Served, request: FastifyRequest): string | undefined {
  if (address !== undefined) return address.href;
  const name = hostName(request);
  if (name === 'localhost' || isLoopback(name)) return undefined;
  return `${request.protocol}://${request.host}/`;
}

async function askOf(
  club: Club,
  served: Served,
  route: Route,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<Ask<RouteName>> {
  const asker = await askerOf(club, request, route);
  const https = isHttps(request);
  return {
    club,
    params: read(route.params, request.params ?? {}),
    query: read(route.query, typed(request.query ?? {})),
    body: read(route.body, request.body ?? undefined),
    asker,
    address: request.ip,
    agent: request.headers['user-agent'] ?? '',
    secure: https || hostName(request) === 'localhost' || isLoopback(request.ip),
    site: siteAt(request),
    mailer: served.mailer,
    reached: reachedAt(served, request),
    note: (about, what) => request.log.warn(about, what),
    keepSession: (secret) => {
      const name = https ? SECURE_COOKIE : PLAIN_COOKIE;
      const about = { path: '/', httpOnly: true, secure: https, sameSite: 'lax' } as const;
      if (secret === undefined) {
        reply.clearCookie(name, about);
        // What the browser keeps of workbooks is the member's own: the cookie alone goes.
        reply.header('Clear-Site-Data', '"cookies"');
      } else {
        reply.setCookie(name, secret, { ...about, maxAge: COOKIE_DAYS * 86_400 });
      }
    },
  } as Ask<RouteName>;
}

/**
 * What was expected, where no shape says it in its own words. What was sent is not told again: it may be long, and a
 * password.
 */
function expected(issue: Parameters<z.core.$ZodErrorMap>[0]): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? 'it is missing'
        : `it is to be of the kind "${issue.expected}"`;
    case 'too_big':
      return `it is more than ${issue.maximum}${inLetters(issue.origin)}`;
    case 'too_small':
      return `it is less than ${issue.minimum}${inLetters(issue.origin)}`;
    case 'unrecognized_keys':
      return 'it has parts that the club does not know';
    case 'invalid_value':
      return `it is to be one of ${issue.values.map((one) => JSON.stringify(one)).join(', ')}`;
    default:
      return 'it has another form';
  }
}

/** What stands behind the question mark is typed by people or made by the page: signs that nobody types are in neither. */
function typed(query: object): object {
  if (Object.values(query).some((one) => typeof one === 'string' && /\p{Cc}/u.test(one))) {
    throw new Refused(
      'unreadable',
      'What was looked for has signs in it that nobody can type. Type it anew.',
    );
  }
  return query;
}

const inLetters = (origin: string): string => (origin === 'string' ? ' letters' : '');

/** What was sent, in the shape that the route says. */
function read(shape: Route['body'], sent: unknown): never {
  const found = shape.safeParse(sent, { error: expected });
  if (found.success) return found.data as never;
  const [first] = found.error.issues;
  const where = first?.path.join('.') ?? '';
  throw new Refused(
    'unreadable',
    where === ''
      ? 'What was sent is not what the club expects. Load the page again, then try once more.'
      : `What was sent under "${where.slice(0, 80)}" cannot be taken: ${first?.message ?? ''}.`,
  );
}
