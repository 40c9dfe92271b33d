import { describe, expect, it } from 'vitest';
import { choiceMeant, choicesLike, choicesNear, choicesOf, notAChoice } from './choices.ts';

/** Which of its choices a cell takes for what was typed in it. */

const woods =
  choicesOf(
    {
      list: ['Walnut, black', 'Oak, white', 'Oak, northern red', 'Maple, sugar', 'Maple, red'],
      from: 'woods',
    },
    ['Shed oak'],
  ) ?? [];
const cuts = choicesOf({ list: ['flat', 'rift', 'quarter'] }, []) ?? [];
const texts = (found: readonly { readonly choice: { readonly text: string } }[]) =>
  found.map(({ choice }) => choice.text);

describe('finding in a list', () => {
  it('takes any part of a word, and every word that is written', () => {
    expect(texts(choicesLike('oak', woods))).toEqual([
      'Oak, white',
      'Oak, northern red',
      'Shed oak',
    ]);
    expect(texts(choicesLike('red oak', woods))).toEqual(['Oak, northern red']);
    expect(texts(choicesLike('arte', cuts))).toEqual(['quarter']);
    expect(texts(choicesLike('', cuts))).toEqual(['flat', 'rift', 'quarter']);
    expect(choicesLike('teak', woods)).toEqual([]);
  });

  // Juglans nigra L.: black walnut; Acer saccharum Marshall: sugar maple, hard maple (FPL-GTR-282, chapter 2)
  it('finds a wood by its botanical and its trade names, and says which', () => {
    expect(choicesLike('juglans', woods)).toMatchObject([
      { choice: { text: 'Walnut, black' }, by: expect.stringContaining('Juglans nigra') },
    ]);
    expect(texts(choicesLike('hard maple', woods))).toContain('Maple, sugar');
  });
});

describe('what was meant', () => {
  it.each([
    ['walnut,  BLACK', 'Walnut, black'],
    ['black walnut', 'Walnut, black'],
    ['sugar maple', 'Maple, sugar'],
    ['acer saccharum', 'Maple, sugar'],
    ['walnut', 'Walnut, black'],
    ['shed', 'Shed oak'],
  ])('%s is %s', (text, choice) => {
    expect(choiceMeant(text, woods)?.text).toBe(choice);
  });

  it.each(['oak', 'wallnut', 'teak', ''])('%s is none of them', (text) => {
    expect(choiceMeant(text, woods)).toBeUndefined();
  });
});

describe('what is not in the list', () => {
  it('is told with the nearest, with those it may be, or with none', () => {
    expect(notAChoice('wallnut', woods)).toBe(
      'No wood called "wallnut"; the nearest is Walnut, black. Take it?',
    );
    expect(choicesNear('wallnut', woods)[0]?.text).toBe('Walnut, black');
    expect(notAChoice('oak', woods)).toBe(
      '"oak" is in the names of 3 woods: Oak, white; Oak, northern red; Shed oak. Which one?',
    );
    expect(notAChoice('quater', cuts)).toBe(
      'No choice called "quater"; the nearest is quarter. Take it?',
    );
    expect(notAChoice('xylophone', cuts)).toBe(
      'No choice called "xylophone", and none is like it. Choose from the list.',
    );
  });
});
