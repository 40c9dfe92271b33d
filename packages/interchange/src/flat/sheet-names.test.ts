import { describe, expect, it } from 'vitest';
import { sheetNames } from './sheet-names.ts';

// Limits after ECMA-376 part 1, 18.2.19, and what readers refuse beyond it (common practice, no source).
describe('names of sheets in a file', () => {
  it('stay as they are where every program takes them', () => {
    expect(sheetNames(['Brief', 'Cut list', 'Über & Co'])).toEqual([
      'Brief',
      'Cut list',
      'Über & Co',
    ]);
  });

  it('are cut to 31 letters and numbered where two would be alike', () => {
    const long = 'Everything that has to be bought for the base';
    const [one = '', two = '', three = ''] = sheetNames([`${long}, oak`, `${long}, ash`, long]);
    expect(one).toBe('Everything that has to be bough');
    expect(two).toBe('Everything that has to be bou 2');
    expect(three).toBe('Everything that has to be bou 3');
    expect([one, two, three].every((name) => name.length <= 31)).toBe(true);
  });

  it('lose letters that mean something in references, and are never empty', () => {
    expect(sheetNames(['a/b:c*d', "'quoted'", '[]', 'History'])).toEqual([
      'a b c d',
      'quoted',
      '_',
      'History_',
    ]);
  });

  it('are told apart whatever their capitals, those given before too', () => {
    expect(sheetNames(['checks', 'CHECKS'], ['Checks'])).toEqual(['checks 2', 'CHECKS 3']);
  });

  it('are never cut through a letter of two halves', () => {
    const [name = ''] = sheetNames([`${'a'.repeat(30)}🪚b`]);
    expect(name).toBe('a'.repeat(30));
  });
});
