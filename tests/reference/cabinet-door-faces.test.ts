import { readParts } from '@kerfbook/drawing';
import { expect, it } from 'vitest';
import { bookWith } from './books.ts';

/** A door is seen from both sides: what is marked on its panel is said by where it faces when it hangs. */
it.each([
  ['one door', { doors: '1', opening_width: '12' }],
  ['one small door', { doors: '1', opening_width: '6 1/8', opening_height: '10 7/8', gap: '1/32' }],
  ['two doors', {}],
])('no face of the panel of %s is its outside: the show face would be rabbeted', (_, inputs) => {
  const { joints } = readParts(bookWith('cabinet-door', inputs));
  const panel = (joints?.marked ?? []).filter(({ part }) => /panel/i.test(part));
  const words = panel.flatMap(({ cuts }) =>
    cuts.flatMap(({ on, marks }) => [on, ...marks.map(({ reference }) => reference)]),
  );
  expect(words.length).toBeGreaterThan(0);
  expect(words.filter((one) => /outside|inside/.test(one))).toEqual([]);
});
