import fc from 'fast-check';

/** One change to a file, told in numbers, so that a failure can be made smaller and told again. */
export type Mutate = (text: string) => string;

type Path = readonly (string | number)[];

/** Deeper than a workbook goes, changes are not looked for. */
const DEEPEST = 12;

/** Where every value of a parsed file stands. */
function pathsIn(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null || path.length > DEEPEST) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value)
    ? [...value.entries()]
    : Object.entries(value);
  return [path, ...entries.flatMap(([key, part]) => pathsIn(part, [...path, key]))];
}

function at(root: unknown, path: Path): unknown {
  let place = root;
  for (const step of path) place = (place as Record<string | number, unknown>)[step];
  return place;
}

type Group = Record<string | number, unknown>;

/** Changes a file as the parsed value it is; a file that is none stays. */
const inside =
  (change: (root: unknown, paths: Path[]) => void): Mutate =>
  (text) => {
    let root: unknown;
    try {
      root = JSON.parse(text.replace(/^\uFEFF/, ''));
    } catch {
      return text;
    }
    const paths = pathsIn(root).filter((path) => path.length > 0);
    if (paths.length > 0) change(root, paths);
    return JSON.stringify(root);
  };

const pick = <T>(all: readonly T[], which: number): T => all[which % all.length] as T;
const holder = (root: unknown, path: Path): Group => at(root, path.slice(0, -1)) as Group;
const last = (path: Path): string | number => path.at(-1) ?? '';

const words = [
  '=', '(', ')', '[', ']', 'c2', '.r1', '$', 's1!', ':', '"', '+', '-', '*', '/', '1', '0.5', '1e308',
  'stool_length', 'seat_width', 'SUM(', 'IF(', 'SORT(', 'OFFSET(', 'INDEX(', 'SPECIFIC_GRAVITY(', ',',
  ';', ' ', '\n', '#REF!', '#N/A', '%', '^', '&', '<', '>', '{', '}', 'TRUE', 'A1', 'Z9', 'A:A', '3:3',
  "'", "'Main sizes'!", '木!B2', '[c2.r1]:[c2.r2]', '[s2!c1.r2]', '[c1]:[c2]', '[.r1]:[.r2]', '[c9.r9]',
  '\u2044', '½', '²', '\ud800', '\0', '@', '|', '_', '.', 'ROW(', '()', '(2)', '"x"', '=1', 'Ü',
]; // biome-ignore format: a list of words

const formula = fc
  .array(fc.constantFrom(...words), { minLength: 0, maxLength: 12 })
  .map((parts) => `=${parts.join('')}`);

/** What might stand where it does not belong, or almost does. */
const intruder: fc.Arbitrary<unknown> = fc.oneof(
  formula,
  fc.constantFrom<unknown>(
    '', 's1', 's2', 'c1', 'r1', 'r2', 'constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf',
    'stool_length', 'wood', 'length', 'money', 'input', 'text', 'parts', 'A1', 'R1C1', 'TRUE', '=A1', '=',
    '\ud800', '\udc00x', '\u0000', '\u202e', '\uFEFF', 'x'.repeat(8192), 'x'.repeat(8193), '='.repeat(40),
    `=${'('.repeat(300)}1`, `=${'1+'.repeat(600)}1`, `=${'A1,'.repeat(900)}1`, '{wood}', '{{wood}}',
    0, -1, 1, 2, 3, 0.1, 1e21, 1e300, -1e308, 5e-324, 2 ** 53, true, false, null, [], {}, [[]], [null],
    { value: 1 }, { value: '=1' }, { formula: '=1' }, { formula: '=B1', override: { value: 1 } },
    { value: 1, typed: '' }, { value: 2, formula: '=3' }, { typed: 'x' }, { override: { value: 4 } },
    { c1: { value: 1 } }, { id: 'r1' }, { id: 'c1', width: 99 }, { list: [] }, { list: [''], min: 3, max: 1 },
  ), // biome-ignore format: a list of values
  fc.jsonValue({ maxDepth: 3 }),
  fc.string({ unit: 'binary', maxLength: 20 }),
  fc.integer({ min: 1, max: 600 }).map((depth) => {
    let value: unknown = 1;
    for (let i = 0; i < depth; i += 1) value = i % 2 === 0 ? [value] : { a: value };
    return value;
  }),
);

const which = fc.nat({ max: 1_000_000 });

const putInto = fc.tuple(which, intruder).map(
  ([n, value]): Mutate =>
    inside((root, paths) => {
      const path = pick(paths, n);
      holder(root, path)[last(path)] = value;
    }),
);

const takeOut = which.map(
  (n): Mutate =>
    inside((root, paths) => {
      const path = pick(paths, n);
      const place = holder(root, path);
      if (Array.isArray(place)) place.splice(Number(last(path)), 1);
      else delete place[last(path)];
    }),
);

const KEYS = [
  '__proto__',
  'constructor',
  'c1',
  'c2',
  'value',
  'formula',
  'name',
  'typed',
  'cells',
  'id',
];
const addKey = fc.tuple(which, fc.constantFrom(...KEYS), intruder).map(
  ([n, key, value]): Mutate =>
    inside((root, paths) => {
      const groups = paths.filter((path) => isGroup(at(root, path)));
      if (groups.length === 0) return;
      // As JSON has it: a key of its own, also where a plain one would reach the prototype.
      Object.defineProperty(at(root, pick(groups, n)), key, {
        value,
        enumerable: true,
        configurable: true,
        writable: true,
      });
    }),
);

const isGroup = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const doubled = fc.tuple(which, which).map(
  ([n, m]): Mutate =>
    inside((root, paths) => {
      const lists = paths.filter((path) => Array.isArray(at(root, path)));
      if (lists.length === 0) return;
      const list = at(root, pick(lists, n)) as unknown[];
      if (list.length > 0) list.splice(m % (list.length + 1), 0, structuredClone(pick(list, n)));
    }),
);

const moved = fc.tuple(which, which).map(
  ([n, m]): Mutate =>
    inside((root, paths) => {
      const [from, to] = [pick(paths, n), pick(paths, m)];
      const value = structuredClone(at(root, from));
      holder(root, to)[last(to)] = value;
    }),
);

/** A word of the file becomes another everywhere, or here and there: ids that dangle, ids like properties. */
const renamed = fc
  .tuple(
    fc.constantFrom(
      's1',
      's2',
      'c1',
      'c2',
      'c3',
      'r1',
      'r2',
      'r4',
      'k1',
      't1',
      'stool_length',
      'wood',
    ),
    fc.constantFrom(
      'constructor',
      'tostring',
      's1',
      's2',
      'c1',
      'r1',
      'x9',
      'a',
      'true',
      'sum',
      'Wood',
    ),
    fc.boolean(),
  )
  .map(
    ([from, to, all]): Mutate =>
      (text) => {
        const word = new RegExp(`(?<![A-Za-z0-9_])${from}(?![A-Za-z0-9_])`, all ? 'g' : '');
        return text.replace(word, to);
      },
  );

/** A formula with a part of it exchanged for another word of formulas. */
const inFormula = fc.tuple(which, which, which, fc.constantFrom(...words)).map(
  ([n, from, size, word]): Mutate =>
    inside((root, paths) => {
      const formulas = paths.filter((path) => String(at(root, path)).startsWith('='));
      if (formulas.length === 0) return;
      const path = pick(formulas, n);
      const text = String(at(root, path));
      const begin = from % (text.length + 1);
      holder(root, path)[last(path)] = text.slice(0, begin) + word + text.slice(begin + (size % 6));
    }),
);

const textual: fc.Arbitrary<Mutate> = fc.oneof(
  fc.tuple(which, which).map(
    ([a, b]): Mutate =>
      (text) => {
        const begin = a % (text.length + 1);
        return text.slice(0, begin) + text.slice(begin + (b % 40));
      },
  ),
  fc.tuple(which, which).map(
    ([a, b]): Mutate =>
      (text) => {
        const begin = a % (text.length + 1);
        return text.slice(0, begin + (b % 60)) + text.slice(begin);
      },
  ),
  fc
    .tuple(
      which,
      fc.constantFrom(
        '"',
        '\\',
        '{',
        '}',
        '[',
        ']',
        ',',
        ':',
        '0',
        '-',
        'e',
        '9',
        ' ',
        '\n',
        '\0',
        '=',
        '\ud800',
        '\uFEFF',
        '\u2028',
        '"__proto__":{},',
        '"c1":{},',
        '\\ud800',
      ),
    )
    .map(
      ([a, piece]): Mutate =>
        (text) => {
          const begin = a % (text.length + 1);
          return text.slice(0, begin) + piece + text.slice(begin);
        },
    ),
  fc
    .tuple(
      which,
      fc.constantFrom(
        '1e999',
        '-0',
        '1e-400',
        '00',
        '0x1',
        'NaN',
        '.5',
        '1.',
        '1e5',
        '1E+2',
        '0.1e1',
        '9'.repeat(400),
      ),
    )
    .map(
      ([a, number]): Mutate =>
        (text) => {
          const numbers = [...text.matchAll(/(?<=: ?)-?\d+(?:\.\d+)?(?=[ ,}\n])/g)];
          if (numbers.length === 0) return text;
          const found = pick(numbers, a);
          return text.slice(0, found.index) + number + text.slice(found.index + found[0].length);
        },
    ),
  fc.constantFrom<Mutate>(
    (text) => `\uFEFF${text}`,
    (text) => `\uFEFF\uFEFF${text}`,
    (text) => text.replaceAll('\n', '\r\n'),
    (text) => text.replaceAll('\n', '\r'),
    (text) => text.replaceAll('\n', ''),
    (text) => ` \t\r\n${text}\n\n`,
    (text) => `${text}\0`,
    (text) => text.replaceAll('"', "'"),
    (text) => '['.repeat(2000) + text + ']'.repeat(2000),
    (text) => text.normalize('NFD'),
    (text) => text.toUpperCase(),
  ),
  which.map(
    (a): Mutate =>
      (text) => {
        // A key of a group stands there once more, with what stood beside it.
        const keys = [...text.matchAll(/"[a-z][A-Za-z0-9]*":/g)];
        if (keys.length === 0) return text;
        const { index } = pick(keys, a);
        return `${text.slice(0, index)}${pick(keys, a)[0]} 1, ${text.slice(index)}`;
      },
  ),
);

/** One change, most of them so small that the file may still be sound. */
export const mutation: fc.Arbitrary<Mutate> = fc.oneof(
  { weight: 10, arbitrary: inFormula },
  { weight: 5, arbitrary: putInto },
  { weight: 3, arbitrary: takeOut },
  { weight: 2, arbitrary: addKey },
  { weight: 2, arbitrary: doubled },
  { weight: 3, arbitrary: moved },
  { weight: 3, arbitrary: renamed },
  { weight: 3, arbitrary: textual },
);
