import { Id, Sign } from '@kerfbook/protocol';
import { describe, expect, it } from 'vitest';
import { newId, signOf } from './ids.ts';

describe('an id', () => {
  it('is as the protocol has it, and no two are the same', () => {
    const ids = Array.from({ length: 20_000 }, () => newId());
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) {
      expect(id).toHaveLength(22);
      expect(Id.safeParse(id).success).toBe(true);
    }
  });

  it('sorts by its moment, bytewise', () => {
    const moments = [
      0,
      1,
      61,
      62,
      3843,
      1_700_000_000_000,
      Date.now(),
      Date.now() + 1,
      2 ** 48 - 1,
    ];
    const ids = moments.map((moment) => newId(moment));
    expect(
      ids.toSorted((one, other) => Buffer.compare(Buffer.from(one), Buffer.from(other))),
    ).toEqual(ids);
  });

  it('differs in its chance alone where the moment is the same', () => {
    const [one, other] = [newId(1_700_000_000_000), newId(1_700_000_000_000)];
    expect(one.slice(0, 7)).toBe(other.slice(0, 7));
    expect(one.slice(-8)).not.toBe(other.slice(-8));
  });
});

describe('a sign', () => {
  // FIPS 180-4 example "abc", as the NIST publishes it.
  it('is SHA-256', () => {
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(signOf('abc')).toBe(abc);
    expect(signOf(Buffer.from('abc'))).toBe(abc);
    expect(signOf('é')).toBe(signOf(Buffer.from('é', 'utf8')));
    expect(Sign.safeParse(signOf('')).success).toBe(true);
  });
});
