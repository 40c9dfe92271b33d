import { describe, expect, it } from 'vitest';
import { nameProblem } from '../formula/names.ts';
import { KNOWN_NAMES, type KnownName, readersOf } from './known-names.ts';
import { READERS } from './readers.ts';

const all: readonly KnownName[] = READERS.flatMap((reader) => KNOWN_NAMES[reader].names);

describe('names that other parts look for', () => {
  it('are names a cell can have, and of one quantity wherever they are read', () => {
    const quantities = new Map<string, string>();
    for (const { name, quantity } of all) {
      expect(nameProblem(name), name).toBeUndefined();
      expect(quantities.get(name) ?? quantity, name).toBe(quantity);
      quantities.set(name, quantity);
    }
    expect(quantities.size).toBeGreaterThan(30);
  });

  it('stand once with each reader, and say what happens without them', () => {
    for (const reader of READERS) {
      const { names } = KNOWN_NAMES[reader];
      expect(new Set(names.map(({ name }) => name)).size).toBe(names.length);
      for (const { without } of names)
        if (without !== undefined) expect(without).toMatch(/^[A-Z].*\.$/);
    }
  });

  it('are found in whatever capitals they are written', () => {
    expect(readersOf('Glue_Volume').map(({ reader }) => reader)).toEqual([
      'buying-list',
      'glue-up',
    ]);
    expect(readersOf('glue')).toEqual([]);
  });
});
