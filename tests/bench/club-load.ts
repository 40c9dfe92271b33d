import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { Agent, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type Database,
  migrate,
  openDatabase,
  signOf,
  type Tables,
  type Where,
} from '@kerfbook/club/database';
import {
  findableWords,
  packed,
  rankOf,
  startPostgres,
  testClub,
  type Visitor,
} from '@kerfbook/club/staging';
import type { Card } from '@kerfbook/protocol';
import pg from 'pg';

type TemplateRow = Tables['template'];
type RevisionRow = Tables['revision'];
type WordRow = Tables['word'];

/** How often in a second, and how long in ms: the middle one, and all but the slowest hundredth. */
interface Load {
  readonly rate: number;
  readonly middle: number;
  readonly slow: number;
}

/** Templates on the shelf, seconds that each is asked for, and how many ask at a time. */
const MANY = Number(process.env.KERFBOOK_TEMPLATES ?? '10000');
const SECONDS = Number(process.env.KERFBOOK_SECONDS ?? '5');
const ASKING = 8;
/** Templates that are written at once: SQLite takes so many values in a statement. */
const BATCH = 200;
const BENCH = readFileSync(
  fileURLToPath(new URL('../../templates/bench.json', import.meta.url)),
  'utf8',
);

/** Numbers that are the same each time (a linear congruence, modulus 2 to the 32nd). */
const chance = (seed: number) => () => {
  seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
  return seed / 2 ** 32;
};
const COMMON =
  'table bench shelf box chair desk cabinet stool frame drawer oak maple walnut cherry ash pine simple small large round square hall kitchen garden shop wall corner tapered floating hanging folding'.split(
    ' ',
  );
const [FIRST, SECOND] = [
  'ba ce dri fo gul har in jo kel lu mor ne ost pra quil ras sto tur ul ver wes yar'.split(' '),
  'bel cker dow ften gan hill ket lin mer nock per rel sen ton vale wick'.split(' '),
];
const RARE = FIRST.flatMap((one) => FIRST.flatMap((two) => SECOND.map((end) => one + two + end)));
const WORDS = [...COMMON, ...RARE];
const WOODS = [
  'white oak',
  'hard maple',
  'black walnut',
  'black cherry',
  'white ash',
  'eastern white pine',
];
const KINDS = ['Tables and desks', 'Seating', 'Cabinets and shelves', 'Parts of a piece'];

/** One of a list; there is none beyond its end. */
function at<T>(list: readonly T[], place: number): T {
  const one = list[place];
  if (one === undefined) throw new RangeError(`there is none at ${place}`);
  return one;
}

/** A few words are in most templates, most words in few. */
const wordOf = (next: () => number) => WORDS[Math.floor(WORDS.length * next() ** 5)] ?? 'table';

/** Writes a shelf of so many templates into the database itself. */
async function fill(database: Database, club: string, maker: string): Promise<void> {
  const next = chance(7);
  const made = Array.from({ length: 5 }, (_, i) =>
    packed(JSON.stringify({ ...JSON.parse(BENCH), title: `Bench ${i}` })),
  );
  const blobs = made.map(({ text, sign }) => ({
    club,
    sign: signOf(Buffer.from(text, 'base64')),
    of: sign,
    bytes: Buffer.from(text, 'base64'),
    made: 1,
  }));
  await database.write((t) =>
    t
      .insertInto('blob')
      .values(blobs.map(({ of: _, ...row }) => row))
      .execute(),
  );
  for (let from = 0; from < MANY; from += BATCH) {
    const templates: TemplateRow[] = [];
    const revisions: RevisionRow[] = [];
    const words: WordRow[] = [];
    for (let place = from; place < Math.min(from + BATCH, MANY); place += 1) {
      const id = `template-${String(place).padStart(8, '0')}`;
      const changed = 1_700_000_000_000 + place * 1_000;
      const some = (count: number) => Array.from({ length: count }, () => wordOf(next)).join(' ');
      const title = some(4);
      const wood = WOODS[Math.floor(next() * WOODS.length)] ?? '';
      const longest = Math.round(300 + next() * 2_500);
      const kind = at(KINDS, Math.floor(next() ** 2 * KINDS.length));
      const card: Card = {
        about: some(16),
        kind,
        size: '48 × 14 × 18 in',
        longest,
        woods: [wood],
        joints: ['mortise and tenon'],
        tags: [some(1)],
        results: [['Price to quote', '$412.00']],
      };
      const blob = blobs[place % blobs.length];
      templates.push({
        club,
        id,
        maker,
        title,
        licence: 'cc-by-4.0',
        card: JSON.stringify(card),
        kind,
        longest,
        picture: null,
        head: 1,
        from_template: null,
        from_revision: null,
        thanks: Math.floor(next() ** 4 * 40),
        built: 0,
        hidden: 0,
        made: changed,
        changed,
      });
      revisions.push({
        club,
        template: id,
        number: 1,
        by: maker,
        suggested_by: null,
        note: '',
        changes: '[]',
        sign: blob?.of ?? '',
        blob: blob?.sign ?? '',
        made: changed,
      });
      for (const word of findableWords({ title, card, maker }))
        words.push({ club, word, rank: rankOf(changed), template: id });
    }
    await database.write(async (t) => {
      await t.insertInto('template').values(templates).execute();
      await t.insertInto('revision').values(revisions).execute();
      for (let at = 0; at < words.length; at += 8_000)
        await t
          .insertInto('word')
          .values(words.slice(at, at + 8_000))
          .execute();
    });
  }
}

const agent = new Agent({ keepAlive: true, maxSockets: ASKING });
/** Asks once. */
function ask(
  port: number,
  visitor: Visitor,
  method: string,
  path: string,
  body?: object,
): Promise<{ readonly status: number; readonly text: string }> {
  return new Promise((resolve, reject) => {
    const letters = body === undefined ? undefined : JSON.stringify(body);
    const host = `localhost:${port}`;
    const asked = request(
      {
        agent,
        host: '127.0.0.1',
        port,
        method,
        path,
        headers: {
          host,
          origin: `http://${host}`,
          cookie: visitor.cookie,
          ...(letters === undefined
            ? {}
            : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(letters) }),
        },
      },
      (response) => {
        const pieces: Buffer[] = [];
        response.on('data', (piece) => pieces.push(piece));
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, text: Buffer.concat(pieces).toString() }),
        );
      },
    );
    asked.on('error', reject);
    asked.end(letters);
  });
}

/** Does something over and over, so many at a time. */
async function load(once: (who: number, time: number) => Promise<unknown>): Promise<Load> {
  for (let who = 0; who < ASKING; who += 1) await once(who, -1 - who);
  const times: number[] = [];
  const began = performance.now();
  const until = began + SECONDS * 1_000;
  await Promise.all(
    Array.from({ length: ASKING }, async (_, who) => {
      for (let time = 0; performance.now() < until; time += 1) {
        const start = performance.now();
        await once(who, time);
        times.push(performance.now() - start);
      }
    }),
  );
  const rate = (times.length / (performance.now() - began)) * 1_000;
  times.sort((a, b) => a - b);
  const of = (share: number) =>
    times[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0;
  return { rate, middle: of(0.5), slow: of(0.99) };
}

const said = ({ rate, middle, slow }: Load) =>
  `${rate.toFixed(0).padStart(7)}/s ${middle.toFixed(1).padStart(7)} ms ${slow.toFixed(1).padStart(7)} ms`;

async function measure(name: string, where: Where): Promise<void> {
  const database = await openDatabase(where);
  await migrate(database);
  const hosts = new Set<string>();
  const { club, app, clock, member } = await testClub(database, { hosts });
  const visitors: Visitor[] = [];
  for (let i = 0; i < ASKING; i += 1) visitors.push(await member(`Member ${i}`));
  const began = performance.now();
  await fill(database, club.id, at(visitors, 0).id);
  console.log(
    `\n${name}: ${MANY} templates written in ${((performance.now() - began) / 1_000).toFixed(0)} s`,
  );
  if (name === 'PostgreSQL') {
    // As its own caretaker would within minutes.
    const client = new pg.Client({ connectionString: where.url });
    await client.connect();
    await client.query('analyze');
    await client.end();
  }
  let bare = '';
  app.get('/bare', async (_request, reply) => reply.type('application/json').send(bare));
  app.post('/bare', async (_request, reply) =>
    reply.type('application/json').send('{"done":true}'),
  );
  await app.listen({ port: 0, host: '127.0.0.1' });
  const { port } = app.server.address() as AddressInfo;
  hosts.add(`localhost:${port}`);

  const texts = Array.from({ length: 16 }, (_, i) =>
    packed(JSON.stringify({ ...JSON.parse(BENCH), title: `Sent ${i}` })),
  );
  const card = { kind: 'Seating', woods: ['white oak'], joints: [], tags: [], results: [] };
  const heads = new Map<string, number>();
  let written = 0;
  const posts = async (who: number, path: string, body: object) => {
    // Nobody has asked too often yet.
    written += 1;
    if (written % 150 === 0) clock.pass(11 * 60_000);
    const { status, text } = await ask(port, at(visitors, who), 'POST', path, body);
    if (status !== 200) throw new Error(`${path}: ${status} ${text}`);
  };
  for (let who = 0; who < ASKING; who += 1) {
    await posts(who, '/club/templates', {
      id: `${'qdkxrtwz'[who]}-own-template`,
      text: at(texts, 0).text,
      card,
      note: '',
      changes: [],
      licence: 'club',
    });
    await posts(who, '/club/books', {
      id: `own-book-${who}`,
      title: 'Bench',
      device: 'desk',
      ...at(texts, 0),
    });
  }
  const number = (key: string) => {
    heads.set(key, (heads.get(key) ?? 0) + 1);
    return heads.get(key);
  };
  const rare = WORDS[Math.floor(WORDS.length * 0.9)];
  const some = (who: number, time: number) =>
    `template-${String((who * 7_919 + Math.abs(time) * 104_729) % MANY).padStart(8, '0')}`;
  const reads: Readonly<Record<string, (who: number, time: number) => string>> = {
    'browse: the newest': () => '/club/templates',
    'browse: most thanked': () => '/club/templates?order=thanks',
    'browse: kind and wood': () =>
      `/club/templates?kind=Seating&wood=${encodeURIComponent(at(WOODS, 1))}`,
    'browse: a word, by size': () => '/club/templates?find=bench&longest=300-900',
    'search: two common words': () => '/club/templates?find=table+oak',
    'search: common and rare': () => `/club/templates?find=table+${rare}`,
    'search: a beginning': () => '/club/templates?find=ba',
    'open a template': (who, time) => `/club/templates/${some(who, time)}`,
    'open a revision': (who, time) => `/club/templates/${some(who, time)}/revisions/1`,
    'look for a later state': (who) => `/club/books/own-book-${who}?since=1`,
  };
  const writes: Readonly<Record<string, (who: number) => Promise<void>>> = {
    'publish a revision': (who) =>
      posts(who, `/club/templates/${'qdkxrtwz'[who]}-own-template/revisions`, {
        parent: number(`t${who}`),
        text: at(texts, (heads.get(`t${who}`) ?? 0) % 16).text,
        card,
        note: '',
        changes: [],
      }),
    'keep a state': (who) =>
      posts(who, `/club/books/own-book-${who}/states`, {
        parent: number(`b${who}`),
        title: 'Bench',
        device: 'desk',
        changes: 1,
        ...at(texts, (heads.get(`b${who}`) ?? 0) % 16),
      }),
  };
  const query = await load(async (who, time) => {
    await database.read
      .selectFrom('template')
      .selectAll()
      .where('club', '=', club.id)
      .where('id', '=', some(who, time))
      .executeTakeFirst();
  });
  let rows = 0;
  const insert = await load(async () => {
    rows += 1;
    const row = { club: club.id, template: `thanked-${rows}`, member: at(visitors, 0).id, made: 1 };
    await database.write((t) => t.insertInto('thanks').values(row).execute());
  });
  const line = (label: string, one: Load, rest = '') =>
    console.log(`${label.padEnd(30)}${said(one)}${rest}`);
  console.log(
    `${''.padEnd(30)}     rate   middle    p99       beside: rate of the bare route, p99 by its middle`,
  );
  line('bare query by key', query);
  line('bare row in a transaction', insert);
  for (const [label, pathOf] of Object.entries(reads)) {
    const first = await ask(port, at(visitors, 0), 'GET', pathOf(0, 1));
    if (first.status !== 200) throw new Error(`${label}: ${first.status} ${first.text}`);
    bare = first.text;
    const beside = await load(
      async (who) => void (await ask(port, at(visitors, who), 'GET', '/bare')),
    );
    const found = await load(async (who, time) => {
      const { status } = await ask(port, at(visitors, who), 'GET', pathOf(who, time));
      if (status !== 200) throw new Error(`${label}: ${status}`);
    });
    line(
      label,
      found,
      `  ${(found.rate / beside.rate).toFixed(2)} of ${beside.rate.toFixed(0)}/s, p99 ${(found.slow / beside.middle).toFixed(1)} times; ${(bare.length / 1_000).toFixed(1)} kB`,
    );
  }
  for (const [label, once] of Object.entries(writes)) {
    const body = { text: at(texts, 0).text };
    const beside = await load(
      async (who) => void (await ask(port, at(visitors, who), 'POST', '/bare', body)),
    );
    const found = await load((who) => once(who));
    line(
      label,
      found,
      `  ${(found.rate / insert.rate).toFixed(2)} of a row's ${insert.rate.toFixed(0)}/s, ${(found.rate / beside.rate).toFixed(2)} of ${beside.rate.toFixed(0)}/s; p99 ${(found.slow / insert.middle).toFixed(1)} times a row's middle`,
    );
  }
  await app.close();
  await database.close();
}

console.log(`${ASKING} at a time, ${SECONDS} s each, asked from the same process`);
const folder = mkdtempSync(join(tmpdir(), 'kerfbook-club-bench-'));
try {
  await measure('SQLite', { folder });
} finally {
  rmSync(folder, { recursive: true });
}
const server = await startPostgres(true);
try {
  await measure('PostgreSQL', { url: server.url });
} finally {
  await server.remove();
}
process.exit();
