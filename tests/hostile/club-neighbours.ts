/** As much of a zod shape as its neighbours are made from. */
interface Shape {
  readonly _zod: {
    readonly def: {
      readonly type: string;
      readonly shape?: Readonly<Record<string, Shape>>;
      readonly element?: Shape;
      readonly innerType?: Shape;
      readonly items?: readonly Shape[];
    };
    readonly bag: { readonly maximum?: number; readonly minimum?: number };
  };
}

/** A value beside one that a shape takes, and what it has otherwise. */
export interface Neighbour {
  readonly what: string;
  readonly value: unknown;
}

/** What a text may hold that somewhere is taken for something else. */
const TEXTS = [
  '',
  ' ',
  '\0',
  'a\0b12345678',
  '\ud83e',
  'made-up\udc00words',
  '\u202eabcdefgh',
  '\u2028abcdefgh',
  '../../../../etc/passwd',
  '..\\..\\windows',
  '%00%2e%2e%2f',
  "' or 1=1; drop table member; --",
  '<script>alert(1)</script>',
  '{{7*7}}#{7*7}',
  '__proto__',
  'constructor',
  'toString',
  'NaN',
  '-1',
  '1e999',
  'null',
  '\u{1fab5}'.repeat(20),
  '\ufeffabcdefgh',
  '%',
  '_%_%_%_%',
  '9-1',
  '0-999999',
];
/** Longer than anything that is words, and shorter than the smallest body that is taken. */
const HUGE = 'long '.repeat(9_000);
const OTHER_KINDS = [null, true, 0, 1.5, '', [], {}, [[]], { length: 3 }];
const NUMBERS = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  -1,
  -0,
  0,
  1,
  2,
  1.5,
  1e-320,
  1e308,
  -1e308,
  2 ** 31,
  2 ** 53,
  -(2 ** 53),
  2 ** 63,
];

/** An object with a key that objects have already: written out it is a key like any other. */
function withOwn(value: object, key: string, holds: unknown): object {
  return Object.defineProperty({ ...value }, key, { value: holds, enumerable: true });
}

/** All that lies one step beside a value. */
export function neighbours(shape: unknown, value: unknown): Neighbour[] {
  return beside(shape as Shape, value, '');
}

function beside(shape: Shape, value: unknown, at: string): Neighbour[] {
  const { def, bag } = shape._zod;
  const here = (what: string, other: unknown): Neighbour => ({
    what: `${at === '' ? 'all' : at}: ${what}`,
    value: other,
  });
  const { maximum: most } = bag;
  const others = OTHER_KINDS.map((one) => here(`is ${JSON.stringify(one)}`, one));
  switch (def.type) {
    case 'optional':
      return def.innerType === undefined ? [] : beside(def.innerType, value, at);
    case 'undefined':
      return [here('is there', {}), ...others];
    case 'string': {
      const text = typeof value === 'string' ? value : 'abcdefgh';
      const long =
        most === undefined || most > 100_000
          ? []
          : [here('one more', 'a'.repeat(most + 1)), here('the most', 'a'.repeat(most))];
      return [
        ...others,
        ...long,
        here('huge', HUGE),
        here('cut', text.slice(0, -1)),
        here('twice', text + text),
        ...TEXTS.map((one) => here(JSON.stringify(one), one)),
        ...TEXTS.map((one) => here(`with ${JSON.stringify(one)}`, text.slice(0, 12) + one)),
      ];
    }
    case 'number':
    case 'int': {
      const edges = [bag.minimum, bag.maximum].flatMap((edge) =>
        edge === undefined ? [] : [edge - 1, edge, edge + 1],
      );
      return [
        ...others,
        ...[...NUMBERS, ...edges].map((one) => here(String(one), one)),
        here('as text', '1'),
      ];
    }
    case 'array': {
      const list = Array.isArray(value) ? value : [];
      const first = list[0] ?? 'white oak';
      const { element } = def;
      const inner =
        element === undefined
          ? []
          : beside(element, first, `${at}[0]`).map(({ what, value: one }) => ({
              what,
              value: [one, ...list.slice(1)],
            }));
      return [
        ...others,
        here('none', []),
        here('one more', Array(Math.min((most ?? 12) + 1, 2_000)).fill(first)),
        here('the most', Array(Math.min(most ?? 12, 2_000)).fill(first)),
        here('a hole', [first, null]),
        ...inner,
      ];
    }
    case 'object': {
      const all = (value ?? {}) as Readonly<Record<string, unknown>>;
      const inner = Object.entries(def.shape ?? {}).flatMap(([key, one]) => {
        const { [key]: _gone, ...without } = all;
        return [
          here(`no ${key}`, without),
          ...beside(one, all[key], at === '' ? key : `${at}.${key}`).map(
            ({ what, value: other }) => ({
              what,
              value: { ...all, [key]: other },
            }),
          ),
        ];
      });
      return [
        ...others,
        here('one key more', { ...all, other: 1 }),
        here('a key of objects', withOwn(all, '__proto__', { id: 'of-nobody' })),
        here('a key of classes', withOwn(all, 'constructor', { prototype: { id: 'of-nobody' } })),
        ...inner,
      ];
    }
    default:
      return [
        ...others,
        here('another', 'another'),
        here('a key of objects', '__proto__'),
        here('huge', HUGE),
      ];
  }
}

/** What stands in the place of a part of a path, as it is written there. */
export const PATH_PARTS = [
  '',
  '.',
  '..',
  '%2e%2e',
  '%2e%2e%2f%2e%2e%2fclub',
  '..%5c..%5cclub',
  '%00',
  'abcdefgh%00',
  '%ff%fe%fd%fc%fb%fa%f9%f8',
  '%ed%a0%80abcdefgh',
  '%',
  '%zz',
  '%2',
  'a',
  'a'.repeat(65),
  'a'.repeat(1_999),
  'a'.repeat(3_000),
  '__proto__',
  'constructor',
  'hasOwnProperty',
  'nobody-has-this',
  "'%20or%201=1--",
  '%F0%9F%AA%B5%F0%9F%AA%B5',
  '1e9',
  '-1',
  '0',
  'NaN',
  '99999999999999999999',
  'abcdefgh;x=1',
  'abcdefgh%3fx',
  'abcdefgh#x',
];

/** Bodies as letters, and what they say they are. */
export const RAW: readonly {
  readonly what: string;
  readonly type?: string;
  readonly body: string | Buffer;
}[] = [
  { what: 'no letters', type: 'application/json', body: '' },
  { what: 'half an object', type: 'application/json', body: '{"id":' },
  { what: 'more than one', type: 'application/json', body: '{}{}' },
  { what: 'a list', type: 'application/json', body: '[]' },
  { what: 'nothing', type: 'application/json', body: 'null' },
  { what: 'NaN', type: 'application/json', body: 'NaN' },
  { what: 'a text', type: 'application/json', body: '"x"' },
  { what: 'deep lists', type: 'application/json', body: '['.repeat(30_000) },
  {
    what: 'deep lists, closed',
    type: 'application/json',
    body: '['.repeat(30_000) + ']'.repeat(30_000),
  },
  {
    what: 'deep objects',
    type: 'application/json',
    body: `${'{"a":'.repeat(10_000)}1${'}'.repeat(10_000)}`,
  },
  { what: 'a mark at its beginning', type: 'application/json', body: '\ufeff{}' },
  { what: 'no UTF-8', type: 'application/json', body: Buffer.from([0x22, 0xff, 0xc0, 0x22]) },
  { what: 'a key twice', type: 'application/json', body: '{"id":"abcdefgh","id":"hgfedcba"}' },
  { what: 'larger than is taken', type: 'application/json', body: `"${'a'.repeat(70_000)}"` },
  { what: 'plain text', type: 'text/plain', body: '{}' },
  { what: 'a form', type: 'application/x-www-form-urlencoded', body: 'id=abcdefgh' },
  { what: 'parts', type: 'multipart/form-data; boundary=x', body: '--x--' },
  { what: 'UTF-16', type: 'application/json; charset=utf-16', body: Buffer.from('{}', 'utf16le') },
  { what: 'a type of nothing', type: ';;;', body: '{}' },
  { what: 'no type', body: '{}' },
];
