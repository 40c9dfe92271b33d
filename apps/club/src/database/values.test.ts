import fc from 'fast-check';
import { sql } from 'kysely';
import { expect, it } from 'vitest';
import { onBoth } from '../testing/databases.ts';
import { bound, whole } from './values.ts';

const anything = fc.oneof(
  fc.anything({
    withBigInt: true,
    withBoxedValues: true,
    withDate: true,
    withMap: true,
    withNullPrototype: true,
    withObjectString: true,
    withSet: true,
    withSparseArray: true,
    withTypedArray: true,
  }),
  fc.string({ unit: 'binary' }),
  fc.string({ unit: fc.constantFrom('\ud83e', '\ude9a', '\0', 'a') }),
  fc.double(),
  fc.maxSafeInteger(),
  fc.bigInt({ min: -(2n ** 64n), max: 2n ** 64n }),
  fc.uint8Array().map((bytes) => Buffer.from(bytes).subarray(1)),
  fc.constantFrom<unknown>(
    undefined,
    true,
    false,
    Symbol('x'),
    new ArrayBuffer(2),
    new DataView(new ArrayBuffer(2)),
  ),
);

const SEED = 20_261_129;

onBoth('whatever is handed to a database', (open) => {
  it('is kept as it was, or refused as what it is, and the process lives', async () => {
    const database = await open();
    const seen = { kept: 0, refused: 0 };
    const cast =
      database.kind === 'sqlite'
        ? (value: unknown) => sql`${sql.val(value)}`
        : (value: unknown) => sql`cast(${sql.val(value)} as ${sql.raw(typeOf(value))})`;
    await fc.assert(
      fc.asyncProperty(anything, async (value) => {
        let asked: unknown;
        try {
          const { rows } = await sql<{ v: unknown }>`select ${cast(value)} as v`.execute(
            database.read,
          );
          asked = rows[0]?.v;
        } catch (error) {
          // What is whole and larger than JavaScript's numbers may be kept, and is not read as another.
          const large = typeof value === 'bigint' && !Number.isSafeInteger(Number(value));
          expect(error).toBeInstanceOf(large && accepted(value) ? RangeError : TypeError);
          seen.refused += 1;
          return;
        }
        expect(accepted(value)).toBe(true);
        seen.kept += 1;
        if (value instanceof Uint8Array) expect([...(asked as Buffer)]).toEqual([...value]);
        else expect(asked).toBe(typeof value === 'bigint' ? Number(value) : plain(value));
      }),
      { numRuns: 1500, seed: SEED },
    );
    expect(seen.kept).toBeGreaterThan(200);
    expect(seen.refused).toBeGreaterThan(200);
  });
});

/** Said apart from `bound`, in other words. */
function accepted(value: unknown): boolean {
  if (value === null) return true;
  if (typeof value === 'string')
    return !value.includes('\0') && Buffer.from(value, 'utf8').toString('utf8') === value;
  if (typeof value === 'number') return value - value === 0;
  if (typeof value === 'bigint') return BigInt.asIntN(64, value) === value;
  return value instanceof Uint8Array && !(value instanceof Uint8ClampedArray);
}

/** Databases know one nought. */
function plain(value: unknown): unknown {
  return value === 0 ? 0 : value;
}

function typeOf(value: unknown): string {
  if (typeof value === 'number') return 'double precision';
  if (typeof value === 'bigint') return 'bigint';
  return value instanceof Uint8Array ? 'bytea' : 'text';
}

it('whole numbers are read without loss or not at all', () => {
  expect(whole('9007199254740991')).toBe(Number.MAX_SAFE_INTEGER);
  expect(whole(-5n)).toBe(-5);
  expect(() => whole('9007199254740993')).toThrow(RangeError);
  expect(() => whole(2n ** 53n)).toThrow(RangeError);
});

it('what it is says so by itself alone', () => {
  const masked = Object.defineProperty(new Uint16Array([1]), Symbol.toStringTag, {
    value: 'Uint8Array',
  });
  // Its memory is handed over as it is, and no more than that.
  expect((bound(masked) as Buffer).length).toBe(2);
  expect(() => bound({ [Symbol.toStringTag]: 'Uint8Array', byteLength: 1e9 })).toThrow(TypeError);
});
