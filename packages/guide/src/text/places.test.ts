import { describe, expect, it } from 'vitest';
import { hasWords, Places, sentencesOf, withPlaces } from './places.ts';

const places = new Places();
places.know(['Leg', 'Long apron', 'Rail, long', 'Top']);
places.know(['Gap', 'Length of the top'], true);

describe('a sentence with sizes and parts in it', () => {
  it.each([
    ['Fence to blade 1/2 in', 'Fence to blade {1}'],
    ['Fence to blade 13 mm', 'Fence to blade {1}'],
    [`A board 8' 2 1/2" long: 3.5 in remain`, 'A board {1} long: {2} remain'],
    ['This round: 1 and 2, 3 and 4, 5–6', 'This round: {1}'],
    [
      '8 boards: 3/4 × 5 1/4 × 1,685 mm, numbered from one edge',
      '{1} boards: {2}, numbered from one edge',
    ],
    ['Leg × 4, Long apron × 2 on what stands so far', '{part} on what stands so far'],
    [
      'Rail, long into Leg, inside face: 1 in from the top edge',
      '{part} into {part 2}, inside face: {1} from the top edge',
    ],
    ['Length of the top: 84 in', '{part}: {1}'],
    ['Gap 1/4 in', 'Gap {1}'],
    ['Legroom of 3 parts', 'Legroom of {1} parts'],
    ['Figure-8, 3D, #DIV/0!', 'Figure-8, 3D, #DIV/0!'],
    ['dowel hole Ø3/8 deep', 'dowel hole {1} deep'],
    ['33 and 3/16 inches', '{1} inches'],
    ['it leans 15° to the face, 12 % of it', 'it leans {1} to the face, {2} of it'],
    ['4 in the drawer', '{1} in the drawer'],
    ['nothing {braced}', 'nothing braced'],
  ])('%s has the key %s', (sentence, key) => {
    expect(places.in(sentence).key).toBe(key);
  });

  it('is put together again as it was, and in another order', () => {
    const sentence = 'Rail, long into Leg: 1 and 2 1/2 in from the top edge';
    const { key, fills } = places.in(sentence);
    expect(withPlaces(key, fills, ({ words }) => words)).toBe(sentence);
    const names: Record<string, string> = { Leg: 'Bein', 'Rail, long': 'Zarge' };
    const said = withPlaces(
      '{1} unter der Kante: {part 2}, {part}. {gone}',
      fills,
      ({ kind, words }) =>
        kind === 'name' ? (names[words] ?? words) : words.replace(' and ', ' und '),
    );
    expect(said).toBe('1 und 2 1/2 in unter der Kante: Bein, Zarge. {gone}');
  });

  it('says nothing itself where there are numbers and names alone', () => {
    expect(['{part}: {1}', '{1}', '× —', 'a {1}'].map(hasWords)).toEqual([
      false,
      false,
      false,
      true,
    ]);
  });

  it('is one of several', () => {
    expect(sentencesOf('One. Two is 3.5 in. 4 more? Yes')).toEqual([
      'One.',
      'Two is 3.5 in.',
      '4 more?',
      'Yes',
    ]);
  });
});
