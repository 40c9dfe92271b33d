import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../quantities/read.ts';
import { readList } from './read-list.ts';

// Random parts, each written in a random one of the shapes that makers use, read back as what they are.

const SEED = 20_261;

interface Made {
  readonly count: number;
  readonly name: string;
  /** Sixteenths of an inch, from thin to long. */
  readonly sizes: readonly [number, number, number];
  readonly wood: string;
}

const NAMES = ['Leg', 'Long apron', 'Drawer side', 'Stretcher', 'Top', 'Shelf pin rail', 'Kick'];
const WOODS = ['walnut', 'white oak', 'sugar maple', 'cherry', 'plywood'];

const made: fc.Arbitrary<Made> = fc
  .record({
    count: fc.integer({ min: 1, max: 40 }),
    name: fc.constantFrom(...NAMES),
    thickness: fc.integer({ min: 2, max: 60 }),
    wider: fc.integer({ min: 1, max: 300 }),
    longer: fc.integer({ min: 1, max: 900 }),
    wood: fc.constantFrom(...WOODS),
  })
  .map(({ count, name, thickness, wider, longer, wood }) => ({
    count,
    name,
    sizes: [thickness, thickness + wider, thickness + wider + longer],
    wood,
  }));

/** Inches as makers write them. */
type Inches = (sixteenths: number) => string;
function fraction(sixteenths: number, gap: string): string {
  const whole = Math.floor(sixteenths / 16);
  let [over, under] = [sixteenths % 16, 16];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  if (over === 0) return String(whole);
  return whole === 0 ? `${over}/${under}` : `${whole}${gap}${over}/${under}`;
}
const INCHES: readonly Inches[] = [
  (n) => fraction(n, ' '),
  (n) => fraction(n, '-'),
  (n) => String(n / 16),
  (n) => `${fraction(n, ' ')}"`,
  (n) => `${fraction(n, '-')}”`,
  (n) => `${n / 16} in`,
];
const X = ['x', ' x ', ' × ', ' X ', ' by '];

/** The shapes of a line; sizes come joined, or from thin to long. */
type Shape = (part: Made, sizes: string, each: readonly string[]) => string;
const SHAPES: readonly Shape[] = [
  ({ count, name, wood }, sizes) => `${count} @ ${sizes} ${name} – ${wood}`,
  ({ count, name, wood }, sizes) => `(${count}) ${name} ${sizes} ${wood}`,
  ({ count, name, wood }, sizes) => `${name} – ${count} pcs – ${sizes} – ${wood}`,
  ({ count, name, wood }, sizes) => `${count}x ${name}, ${sizes}, ${wood}`,
  ({ count, name, wood }, sizes) => `• ${name} qty ${count}: ${sizes} (${wood})`,
  ({ count, name, wood }, sizes) => `[ ] ${name}, ${wood}, ${sizes}, ${count} ea.`,
  ({ count, name, wood }, _sizes, each) => [name, count, ...each, wood].join('\t'),
  ({ count, name, wood }, _sizes, each) => [count, name, ...each, wood].join(';'),
  ({ count, name, wood }, _sizes, [t, w, l]) =>
    `${count} pcs ${name}: ${t} thick x ${w} wide x ${l} long, ${wood}`,
];

const written = fc.record({
  part: made,
  shape: fc.constantFrom(...SHAPES),
  inches: fc.constantFrom(...INCHES),
  x: fc.constantFrom(...X),
});

const inchesOf = (entry: string | undefined): number => {
  const read = readEntry(entry ?? '', { quantity: 'length', system: 'us', currency: 'USD' });
  return read.kind === 'value' ? Number(read.value) : Number.NaN;
};

const context = { kind: 'parts', units: 'us', money: '$' } as const;

describe('parts written at random', () => {
  it('are read back as they are', () => {
    fc.assert(
      fc.property(written, ({ part, shape, inches, x }) => {
        const each = part.sizes.map(inches);
        const text = shape(part, each.join(x), each);
        const { rows, unread } = readList(text, context);
        expect(unread, text).toEqual([]);
        const [row] = rows;
        const sizes = ['thickness', 'width', 'length'].map((side) => inchesOf(row?.texts[side]));
        expect(
          { count: row?.texts.count, name: row?.texts.part, wood: row?.texts.material, sizes },
          text,
        ).toEqual({
          count: String(part.count),
          name: part.name,
          wood: part.wood,
          sizes: part.sizes.map((n) => n / 16),
        });
      }),
      { seed: SEED, numRuns: 2_000 },
    );
  });

  it('have every line of any text among rows or among what was not read, and never throw', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        ...'x × @ " \' / - – , ; | ( ) [ ] # $ 1/2 3/4 8/4 mm cm in ft bf pcs qty grain T W L'.split(
          ' ',
        ),
      ),
      fc.constantFrom(
        '\t',
        ' ',
        '\u0000',
        '\u202e',
        '__proto__',
        'constructor',
        'total',
        'walnut',
        '½',
        '=',
      ),
      fc.integer({ min: 0, max: 3000 }).map(String),
      fc.string({ unit: 'grapheme', maxLength: 5 }),
    );
    const line = fc.array(piece, { maxLength: 14 }).map((all) => all.join(''));
    fc.assert(
      fc.property(
        fc.array(line, { maxLength: 12 }),
        fc.constantFrom('parts', 'stock'),
        fc.constantFrom('us', 'metric'),
        (lines, kind, units) => {
          const text = lines.join('\n');
          const { rows, unread, refused } = readList(text, { kind, units, money: '$' });
          expect(refused).toBeUndefined();
          const seen = text
            .split(/\r\n|\r|\n|\u2028|\u2029/)
            .flatMap((one, i) =>
              one
                .replace(
                  /[\u0000-\u001f\u007f-\u009f\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g,
                  '',
                )
                .trim() === ''
                ? []
                : [i + 1],
            );
          expect([...rows, ...unread].map((one) => one.line).sort((a, b) => a - b)).toEqual(seen);
          for (const { texts } of rows) {
            for (const entry of Object.values(texts))
              expect(entry).not.toMatch(/NaN|Infinity|undefined/);
          }
        },
      ),
      { seed: SEED, numRuns: 2_000 },
    );
  });
});

describe('texts that mean harm', () => {
  it.each([
    ['100 kB of sizes', '4 @ 3-1/2 x 3-1/2 x 28-1/2\n'.repeat(3700)],
    ['one line of 100,000 digits', '1'.repeat(100_000)],
    ['one line of 100,000 spaces and digits', '1 '.repeat(50_000)],
    ['100 kB of x', 'x'.repeat(100_000)],
    [
      'lines as long as are read, of digits and signs',
      `${'1/'.repeat(150)}\n${'1 x '.repeat(75)}\n${'3-'.repeat(150)}\n`.repeat(200),
    ],
    ['lines as long as are read, of spaces', `${' '.repeat(148)}1${' '.repeat(150)}\n`.repeat(600)],
    ['brackets', `${'('.repeat(299)}\n`.repeat(300)],
    ['a megabyte', 'Leg 3 x 3 x 28\n'.repeat(70_000)],
    ['line ends alone', '\n'.repeat(150_000)],
  ])('%s: read or refused at once', (_what, text) => {
    // An expression that goes back and forth would take minutes, and the test's own limit would end it.
    const { rows, unread, refused } = readList(text, context);
    for (const { texts } of rows) expect(JSON.stringify(texts)).not.toMatch(/NaN|Infinity|e\+/);
    expect(rows.length + unread.length > 0 || refused !== undefined || text.trim() === '').toBe(
      true,
    );
  });

  it('are read through marks of direction, controls and names of prototypes', () => {
    const { rows } = readList(
      '\u202e4 @ 3 x\u0000 3 x 28 \u200fLeg\n__proto__ 3 x 3 x 28\nconstructor\t2\t3\t3\t28',
      context,
    );
    expect(rows.map(({ texts }) => texts.part)).toEqual(['Leg', '__proto__', 'constructor']);
    expect(rows.map(({ texts }) => texts.length)).toEqual(['28', '28', '28']);
    expect(Object.prototype).not.toHaveProperty('part');
  });

  it('keep heads that are names of prototypes from being columns', () => {
    const { rows } = readList(
      'part\tqty\t__proto__\tlength\twidth\tthickness\nLeg\t4\tx\t28\t3\t3',
      context,
    );
    expect(rows[0]?.texts).toMatchObject({ part: 'Leg', length: '28' });
  });
});
