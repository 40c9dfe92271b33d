import { describe, expect, it } from 'vitest';
import { readParts } from './parts.ts';
import { pieceWords } from './piece-words.ts';
import { buildScene } from './scene.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'];
const partsOf = (...rows: readonly (readonly Fake[])[]) => {
  const { parts, problems } = readParts(fakeBook([HEADS, ...rows], 'metric'));
  expect(problems).toEqual([]);
  return parts;
};
const TOP: readonly Fake[] = ['Top', 1, 30, 800, 1600, null, 0, 0, 700];
const LEG: readonly Fake[] = ['Leg', 4, 60, 60, 700, 'four corners of Top', 50, 50];

describe('which of its pieces one is', () => {
  it('is said by the corner it stands at, as the maker faces the front', () => {
    const parts = partsOf(TOP, LEG);
    const words = pieceWords(parts[1]!);
    const seen = buildScene(parts).pieces.filter(({ part }) => part.name === 'Leg');
    expect(seen).toHaveLength(4);
    for (const { copy, from } of seen) {
      const [depth, side] = [from.y < 400 ? 'front' : 'back', from.x < 800 ? 'left' : 'right'];
      expect(words?.[copy]).toBe(`${depth} ${side}`);
    }
  });

  it('is said along one axis alone where that tells them apart, counted where there are many', () => {
    const rail = (count: number): readonly Fake[] => [
      'Rail',
      count,
      20,
      90,
      680,
      'equal spaces between Leg along, between Leg across, under Top',
    ];
    const words = (count: number) => pieceWords(partsOf(TOP, LEG, rail(count))[2]!);
    expect(words(1)).toBeUndefined();
    expect(words(2)).toEqual(['left', 'right']);
    expect(words(3)).toEqual(['left', 'middle', 'right']);
    expect(words(5)).toEqual([
      'left',
      '2nd from the left',
      '3rd from the left',
      '4th from the left',
      'right',
    ]);
    expect(words(23)?.slice(20, 22)).toEqual(['21st from the left', '22nd from the left']);
    expect(words(14)?.slice(10, 13)).toEqual([
      '11th from the left',
      '12th from the left',
      '13th from the left',
    ]);
  });

  it('is not said of pieces without a place, or that stand in one', () => {
    const loose = partsOf(['Pin', 4, 5, 5, 30], ['Peg', 2, 5, 5, 30, null, 0, 0, 0]);
    expect(loose.map(pieceWords)).toEqual([undefined, undefined]);
  });
});
