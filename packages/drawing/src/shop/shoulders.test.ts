import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { describe, expect, it } from 'vitest';
import { readParts } from '../parts.ts';
import type { Fake } from '../testing/fake-book.ts';
import { joinedBook } from '../testing/joined.ts';
import { cutList } from './cut-list.ts';

const PARTS: Fake[][] = [
  ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z', 'splay along'],
  ['Top', 1, 30, 800, 1600, null, 0, 0, 700],
  ['Leg', 4, 80, 80, 700, 'four corners of Top', 100, 100],
  ['Apron', 2, 30, 90, 1320, 'between Leg along, front and back, under Top', null, 15],
];
const joint = (kind: string): Fake[][] => [[...JOINT_COLUMNS], [kind, 'Apron', 'Leg', null, 10]];
const itemsOf = (parts: Fake[][], kind: string) => {
  const { parts: read } = readParts(joinedBook(parts, joint(kind), 'metric'));
  return new Map(cutList(read).items.map((item) => [item.name, item]));
};

describe('the length between shoulders', () => {
  it('is what lies between the pieces that a part is tenoned into, and its length is over its tenons', () => {
    const items = itemsOf(PARTS, 'mortise and tenon');
    // Top 1600, legs 100 in and 80 wide: 1240 between them, and 40 at each end in the legs.
    expect(items.get('Apron')).toMatchObject({ length: 1320, shoulders: 1240 });
    expect(items.get('Leg')).not.toHaveProperty('shoulders');
    expect(items.get('Top')).not.toHaveProperty('shoulders');
  });

  it('is not said where shoulders are not square, nor where nothing is tenoned', () => {
    const splayed = PARTS.map((row) => (row[0] === 'Leg' ? [...row, null, 8] : row));
    expect(itemsOf(splayed, 'mortise and tenon').get('Apron')).not.toHaveProperty('shoulders');
    const butted = PARTS.map((row) => (row[0] === 'Apron' ? row.with(4, 1240) : row));
    expect(itemsOf(butted, 'dowels').get('Apron')).not.toHaveProperty('shoulders');
  });
});

describe('which of its pieces is which', () => {
  it('is said of a part whose pieces are not cut alike, and of no other', () => {
    const items = itemsOf(PARTS, 'mortise and tenon');
    expect(items.get('Leg')?.which).toEqual([
      'front left',
      'back left',
      'front right',
      'back right',
    ]);
    expect(items.get('Apron')).not.toHaveProperty('which');
    const tapered = PARTS.map((row, at) => [
      ...Array.from({ length: 10 }, (_, i) => row[i] ?? null),
      ...(at === 0 ? ['taper', 'taper to'] : row[0] === 'Leg' ? ['two inside faces', 40] : []),
    ]);
    const plain = cutList(readParts(joinedBook(PARTS, [[...JOINT_COLUMNS]], 'metric')).parts);
    expect(plain.items.some((item) => 'which' in item)).toBe(false);
    const shaped = cutList(readParts(joinedBook(tapered, [[...JOINT_COLUMNS]], 'metric')).parts);
    expect(shaped.items.find(({ name }) => name === 'Leg')?.which).toHaveLength(4);
  });
});
