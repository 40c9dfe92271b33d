import { deflateRawSync, gzipSync } from 'node:zlib';
import {
  type DatabaseTests,
  onPostgres,
  onSqlite,
  ROWS_OF_STEPS,
  type TestClub,
  testClub,
  textOf,
  type Visitor,
} from '@kerfbook/club/testing';
import { REFUSALS, RefusalBody, ROUTES, type Route, type RouteName } from '@kerfbook/protocol';
import fc from 'fast-check';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { hostileImages, TRACES } from './club-images.ts';
import { type Neighbour, neighbours, PATH_PARTS, RAW } from './club-neighbours.ts';
import { ASKERS, type Asker, type Stage, stageOf, type Wholesome } from './club-stage.ts';
import { patience, seedOf, times } from './times.ts';

const NAMES = Object.keys(ROUTES) as RouteName[];
/** Tries are counted whether they were refused or not; a session notes when it was seen. */
const COUNTED_TABLES = [
  ...new Set(ROWS_OF_STEPS.flatMap((step) => step.map(([table]) => table))),
].filter((table) => table !== 'try');

/** A question as it goes over the wire. */
interface Sent {
  readonly what: string;
  readonly path: string;
  readonly body?: string | Buffer;
  /** A body that is written out only once it is asked: there are thousands of them. */
  readonly json?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

const JSON_TYPE = { 'content-type': 'application/json' };
const pathOf = (route: Route, params: Readonly<Record<string, unknown>>): string =>
  route.path.replace(/:(\w+)/g, (_, part: string) => encodeURIComponent(String(params[part])));
const queryOf = (query: Readonly<Record<string, unknown>>): string => {
  const all = Object.entries(query).filter(([, value]) => value !== undefined);
  const inUrl = (text: unknown): string =>
    encodeURIComponent(String(text).replaceAll(/\p{Cs}/gu, '\ufffd'));
  return all.length === 0
    ? ''
    : `?${all.map(([key, value]) => `${key}=${inUrl(value)}`).join('&')}`;
};

/** All that lies beside what a route is asked as it should be. */
function questions(name: RouteName, { params = {}, query, body }: Wholesome): Sent[] {
  const route: Route = ROUTES[name];
  const path = pathOf(route, params);
  const whole = path + queryOf(query ?? {});
  const wholeBody = body === undefined ? {} : { body: JSON.stringify(body), headers: JSON_TYPE };
  const parts = Object.keys(params).flatMap((part) =>
    PATH_PARTS.map((one): Sent => {
      const tricked = route.path.replace(/:(\w+)/g, (_, key: string) =>
        key === part ? one : encodeURIComponent(String(params[key])),
      );
      return { what: `${part} is ${one.slice(0, 40)}`, path: tricked, ...wholeBody };
    }),
  );
  const asQuery = ({ what, value }: Neighbour): Sent[] =>
    typeof value !== 'object' || value === null || Array.isArray(value)
      ? []
      : [
          {
            what: `query ${what}`,
            path: path + queryOf(value as object as Record<string, unknown>),
            ...wholeBody,
          },
        ];
  const asks = [
    'a=1',
    'find=a&find=b',
    '__proto__=1',
    'constructor[prototype]=1',
    '=',
    '&&&',
    `find=${'%'.repeat(9)}`,
    `after=${'a'.repeat(9_000)}`,
    'since=1&since=2',
    'after=%00',
    'after=1~abcdefgh',
  ];
  const bodies = neighbours(route.body, body).map(
    ({ what, value }): Sent => ({
      what: `body ${what}`,
      path: whole,
      ...(value === undefined ? {} : { json: value, headers: JSON_TYPE }),
    }),
  );
  const raw = RAW.map(
    ({ what, type, body: letters }): Sent => ({
      what: `letters: ${what}`,
      path: whole,
      body: letters,
      headers: type === undefined ? {} : { 'content-type': type },
    }),
  );
  return [
    { what: 'as it should be', path: whole, ...wholeBody },
    { what: 'a slash more', path: `${path}/`, ...wholeBody },
    {
      what: 'packed on the way',
      path: whole,
      body: gzipSync(JSON.stringify(body ?? {})),
      headers: { ...JSON_TYPE, 'content-encoding': 'gzip' },
    },
    ...parts,
    ...asks.map(
      (one): Sent => ({ what: `query ${one.slice(0, 40)}`, path: `${path}?${one}`, ...wholeBody }),
    ),
    ...(query === undefined ? [] : neighbours(route.query, query).flatMap(asQuery)),
    ...bodies,
    ...raw,
  ];
}

/** Rows of each table, and what stands in those that change without one being added. */
function rowsOf({ club }: TestClub): Promise<Readonly<Record<string, unknown>>> {
  return club.database.read
    .selectNoFrom((eb) => [
      ...COUNTED_TABLES.map((table) =>
        eb
          .selectFrom(table as 'member')
          .select(({ fn }) => fn.countAll<number>().as('all'))
          .as(`rows of ${table}`),
      ),
      ...(['template', 'book'] as const).map((table) =>
        eb
          .selectFrom(table as 'template')
          .select(({ fn }) => fn.sum<number>('head').as('all'))
          .as(`heads of ${table}`),
      ),
    ])
    .executeTakeFirstOrThrow();
}

const SENTENCE = /^["A-Z](?!.*\[object)[\s\S]{10,900}[.?!]$/;

/** What one question was answered, held to the law. */
async function answered(
  club: TestClub,
  who: Visitor,
  name: RouteName | undefined,
  { what, path, json, body = json === undefined ? undefined : JSON.stringify(json), headers }: Sent,
  method: Route['method'],
): Promise<{ readonly status: number; readonly told: unknown }> {
  const before = await rowsOf(club);
  // A question that is never answered fails by itself: with the patience of a test for all of them.
  const response = await club.app.inject({
    method,
    url: path,
    ...(body === undefined ? {} : { payload: body }),
    headers: {
      host: 'localhost',
      ...(who.token === undefined
        ? { origin: who.origin }
        : { authorization: `Bearer ${who.token}` }),
      ...(who.cookie === undefined ? {} : { cookie: who.cookie }),
      ...headers,
    },
  });
  const { statusCode: status } = response;
  if (status === 200) {
    const told: unknown = response.json();
    // What answered may be another route: `..` is taken out of an address before it is looked at.
    const isOf = (one: RouteName): boolean => (ROUTES[one] as Route).answer.safeParse(told).success;
    expect(name === undefined ? NAMES.some(isOf) : isOf(name)).toBe(true);
    return { status, told };
  }
  const read = RefusalBody.safeParse(JSON.parse(response.payload || 'null'));
  // What was asked stands in what a failure says.
  const asked = `${method} ${path.slice(0, 200)} (${what})`;
  expect([asked, read.success]).toEqual([asked, true]);
  const refused = read.data as RefusalBody;
  expect([asked, refused.refused]).not.toEqual([asked, 'trouble']);
  expect([asked, REFUSALS[refused.refused]]).toEqual([asked, status]);
  expect(refused.says).toMatch(SENTENCE);
  // Nothing that was sent comes back: it may be long, or a password.
  expect(refused.says).not.toContain('long long');
  expect(await rowsOf(club)).toEqual(before);
  return { status, told: refused };
}

/** Routes that end what the next question needs: the stage is set anew after them. */
const ENDS = new Set<RouteName>([
  'signOut',
  'leave',
  'removeMember',
  'setPassword',
  'endOtherSessions',
  'takeOffShelf',
  'letBookGo',
  'accept',
  'decline',
  'takeBack',
  'endToken',
  'withdrawInvitation',
  'join',
  'removeRemark',
  'removeBuilt',
  'settleReport',
  'publishRevision',
  'addState',
  'recover',
  'signIn',
]);

const laws =
  (runs: number, seed: number): DatabaseTests =>
  (open) => {
    it(
      'answers whatever it is asked, in the shape that it says, and changes nothing where it refuses',
      async () => {
        const club = await testClub(await open());
        let stage: Stage | undefined;
        let asked = 0;
        const done = new Map<RouteName, number>();
        await fc.assert(
          fc.asyncProperty(
            fc.constantFrom(...NAMES),
            fc.nat(1e6),
            fc.constantFrom<Asker>(...ASKERS, 'owner', 'owner', 'keeper'),
            async (name, which, asker) => {
              asked += 1;
              // Nobody has asked too often yet; and what was made by others is not in the way.
              if (asked % 10 === 0) club.clock.pass(16 * 60_000);
              if (asked % 400 === 0) stage = undefined;
              stage ??= await stageOf(club);
              const route: Route = ROUTES[name];
              const all = questions(name, stage.asked(name, asked));
              // One in twelve is asked as it should be.
              const sent = all[which % 12 === 0 ? 0 : which % all.length] as Sent;
              const isPath =
                sent.path.split('?')[0] !== pathOf(route, stage.asked(name, asked).params ?? {});
              const { status } = await answered(
                club,
                stage.askers[asker],
                isPath ? undefined : name,
                sent,
                route.method,
              );
              if (status !== 200) return;
              done.set(name, (done.get(name) ?? 0) + 1);
              if (ENDS.has(name) || isPath) stage = undefined;
            },
          ),
          { numRuns: runs, ...seedOf(seed) },
        );
        // Most routes were done, too: a club that refuses everything would pass.
        if (runs >= 3_000) expect(done.size).toBeGreaterThan(NAMES.length * 0.8);
      },
      patience(180_000),
    );

    it(
      'refuses what only looks like a workbook, and keeps nothing behind the end of one',
      async () => {
        const club = await testClub(await open());
        const stage = await stageOf(club);
        const pack = (text: string | Buffer): string => deflateRawSync(text).toString('base64');
        const text = (stage.asked('publish', 0).body as { readonly text: string }).text;
        const bench = JSON.parse(textOf('bench'));
        const texts: Record<string, string> = {
          'no packed text': Buffer.from('not packed').toString('base64'),
          'half of one': text.slice(0, 4 * Math.floor(text.length / 8)),
          'a hundred million zeros': pack(Buffer.alloc(100_000_000)),
          'a text of eighty million letters': pack(`"${'a'.repeat(79_000_000)}"`),
          'no UTF-8': pack(Buffer.from([0xff, 0xfe, 0xc0, 0x80])),
          'no JSON': pack('bench'),
          'no workbook': pack('[]'),
          'deep lists': pack('['.repeat(1_000_000)),
          'deep objects': pack(`${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`),
          'a workbook packed otherwise': gzipSync(JSON.stringify(bench)).toString('base64'),
          'a title with a letter 0': pack(JSON.stringify({ ...bench, title: 'a\0b' })),
          'a title with half a letter': pack(JSON.stringify({ ...bench, title: 'a\ud83eb' })),
          'a title of nothing': pack(JSON.stringify({ ...bench, title: '' })),
          'within: an author with half a letter': pack(
            JSON.stringify({ ...bench, author: 'a\ud83eb' }),
          ),
          'within: a tag with a letter 0': pack(JSON.stringify({ ...bench, tags: ['a\0b'] })),
          'within: a title of many letters': pack(
            JSON.stringify({ ...bench, title: 'a'.repeat(100_000) }),
          ),
          'within: a key of objects': pack(
            `{"__proto__":{"title":"x"},${JSON.stringify(bench).slice(1)}`,
          ),
          'a version to come': pack(JSON.stringify({ ...bench, kerfbook: 9_999 })),
          'within: one that rests on itself': pack(
            JSON.stringify({ ...bench, lineage: { template: 'a\ud83e', revision: 1 } }),
          ),
        };
        for (const [what, one] of Object.entries(texts)) {
          for (const name of [
            'publish',
            'publishRevision',
            'suggest',
            'accept',
            'keepBook',
            'addState',
          ] as const) {
            // Each is unpacked in the same place; the largest are sent once.
            if (one.length > 100_000 && name !== 'publish') continue;
            const { params = {}, body } = stage.asked(name, 1);
            const who = stage.askers[name === 'suggest' ? 'other' : 'owner'];
            const sent = {
              what,
              path: pathOf(ROUTES[name], params),
              body: JSON.stringify({ ...body, text: one }),
              headers: JSON_TYPE,
            };
            const { status } = await answered(club, who, name, sent, 'POST');
            // What a workbook may hold elsewhere than in its title is nobody's business here.
            if (!what.startsWith('within: '))
              expect([what, name, status === 200]).toEqual([what, name, false]);
            club.clock.pass(11 * 60_000);
          }
        }
        const behind = Buffer.concat([
          Buffer.from(text, 'base64'),
          Buffer.from('<script>alert(1)</script>'),
        ]);
        const id = 'with-rubbish-behind';
        const { owner } = stage.askers;
        await owner.get('publish', {
          body: {
            ...(stage.asked('publish', 2).body as object),
            id,
            text: behind.toString('base64'),
          } as never,
        });
        const kept = await owner.get('revision', { params: { template: id, number: 1 } });
        expect(Buffer.from(kept.text, 'base64').includes('<script')).toBe(false);
      },
      patience(120_000),
    );

    it('refuses images that are none, and keeps of the others nothing but what can be seen', async () => {
      const club = await testClub(await open());
      const stage = await stageOf(club);
      const { owner } = stage.askers;
      const { refused, taken } = await hostileImages();
      const ask = async (name: 'publish' | 'tellBuilt', image: string, at: number) => {
        club.clock.pass(11 * 60_000);
        const { params = {}, body } = stage.asked(name, at);
        const key = name === 'publish' ? 'picture' : 'photo';
        const sent = {
          what: name,
          path: pathOf(ROUTES[name], params),
          body: JSON.stringify({ ...body, [key]: image }),
          headers: JSON_TYPE,
        };
        return answered(club, owner, name, sent, 'POST');
      };
      for (const [what, image] of Object.entries(refused)) {
        for (const name of ['publish', 'tellBuilt'] as const) {
          const { status } = await ask(name, image.toString('base64'), 1);
          expect([what, name, status]).toEqual([what, name, status === 400 ? 400 : 422]);
        }
      }
      const letters = [
        '',
        '====',
        'data:image/png;base64,AAAA',
        '\0',
        '\ud83e',
        '<svg/>',
        'A'.repeat(500_000),
      ];
      for (const one of letters) expect((await ask('tellBuilt', one, 1)).status).not.toBe(200);
      const made = Object.entries(taken);
      for (const [at, [what, image]] of made.entries()) {
        for (const name of ['publish', 'tellBuilt'] as const) {
          const { status } = await ask(name, image.toString('base64'), at + 2);
          expect([what, name, status]).toEqual([what, name, 200]);
        }
      }
      const ids = await club.club.database.read
        .selectFrom('image')
        .select('id')
        .where('club', '=', club.club.id)
        .execute();
      expect(ids).toHaveLength(made.length * 2);
      for (const { id } of ids) {
        const response = await club.app.inject({
          url: `/club/images/${id}`,
          headers: { host: 'localhost', origin: owner.origin, cookie: owner.cookie ?? '' },
        });
        expect(response.headers['content-type']).toMatch(/^image\/(?:webp|jpeg)$/);
        const { exif, xmp, iptc, icc } = await sharp(response.rawPayload).metadata();
        expect({ exif, xmp, iptc, icc }).toEqual({});
        for (const trace of TRACES) expect(response.rawPayload.includes(trace)).toBe(false);
      }
      for (const part of PATH_PARTS) {
        const response = await club.app.inject({
          url: `/club/images/${part}`,
          headers: { host: 'localhost', origin: owner.origin, cookie: owner.cookie ?? '' },
        });
        expect(RefusalBody.parse(response.json()).refused).not.toBe('trouble');
      }
    });
  };

onSqlite('all routes of a club', laws(times(3_000), 20_261_129));
onPostgres('all routes of a club', laws(times(300), 20_261_130));
