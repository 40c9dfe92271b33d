import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { signOf } from './sign.ts';

describe('the sign of a text', () => {
  // FIPS 180-4, examples of SHA-256 with one block and with two.
  it.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('of %j is that of the standard', (text, sign) => {
    expect(signOf(text)).toBe(sign);
  });

  it('is that of another program, whatever the text and its length', () => {
    const other = (text: string) => createHash('sha256').update(text).digest('hex');
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 300 }),
        (text) => signOf(text) === other(text),
      ),
    );
    const long = '½ 板 oak\n'.repeat(50_000);
    expect(signOf(long)).toBe(other(long));
  });
});
