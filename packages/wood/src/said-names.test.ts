import { describe, expect, it } from 'vitest';
import { EUROPEAN_ROWS } from './data/european-woods.ts';
import { COVERS_SEVERAL, PROPER, SAID } from './data/trade-names.ts';
import {
  findSpecies,
  materialKind,
  sameWood,
  speciesFigure,
  speciesNames,
} from './find-species.ts';
import { moveTangential, specificGravity } from './species.ts';
import { SPECIES } from './species-records.ts';

describe('a wood as people say it', () => {
  // Common and botanical names as the Wood Handbook (FPL-GTR-190 and FPL-GTR-282, chapters 2 and 5) pairs
  // them; the order of words in the index of its tables; what yards call them besides is common practice,
  // no source. Values from memory.
  it.each([
    ['sugar maple', 'Maple, sugar', 'Acer saccharum', 'hard maple'],
    ['red maple', 'Maple, red', 'Acer rubrum', 'maple red'],
    ['white oak', 'Oak, white', 'Quercus alba', 'oak, white'],
    ['northern red oak', 'Oak, northern red', 'Quercus rubra', 'red oak'],
    ['black walnut', 'Walnut, black', 'Juglans nigra', 'American walnut'],
    ['black cherry', 'Cherry, black', 'Prunus serotina', 'American cherry'],
    ['white ash', 'Ash, white', 'Fraxinus americana', 'ash white'],
    ['American beech', 'Beech, American', 'Fagus grandifolia', 'beech'],
    ['yellow birch', 'Birch, yellow', 'Betula alleghaniensis', 'birch, yellow'],
    ['paper birch', 'Birch, paper', 'Betula papyrifera', 'white birch'],
    ['yellow-poplar', 'Yellow-poplar', 'Liriodendron tulipifera', 'tulip poplar'],
    ['red alder', 'Alder, red', 'Alnus rubra', 'alder'],
    ['American basswood', 'Basswood, American', 'Tilia americana', 'linden'],
    ['shagbark hickory', 'Hickory, shagbark', 'Carya ovata', 'hickory shagbark'],
    ['pecan', 'Hickory, pecan', 'Carya illinoinensis', 'pecan hickory'],
    ['eastern white pine', 'Pine, eastern white', 'Pinus strobus', 'white pine, eastern'],
    ['ponderosa pine', 'Pine, ponderosa', 'Pinus ponderosa', 'pine ponderosa'],
    ['Sitka spruce', 'Spruce, Sitka', 'Picea sitchensis', 'spruce sitka'],
    ['western redcedar', 'Cedar, western redcedar', 'Thuja plicata', 'western red cedar'],
    ['baldcypress', 'Baldcypress', 'Taxodium distichum', 'cypress'],
    ['Port-Orford cedar', 'Cedar, Port-Orford', 'Chamaecyparis lawsoniana', 'port orford cedar'],
    ['teak', 'Teak', 'Tectona grandis', 'TEAK'],
    ['sapele', 'Sapele', 'Entandrophragma cylindricum', 'Sapele'],
  ])('%s: in the index %s, botanically %s, also %s', (said, indexed, botanical, also) => {
    const wood = findSpecies(indexed);
    expect(wood).toMatchObject({ name: said, indexed });
    for (const asked of [said, botanical, also]) {
      for (const text of [asked, asked.toUpperCase(), ` ${asked} `])
        expect(findSpecies(text), text).toBe(wood);
    }
  });

  // EN 13556 (round and sawn timber, nomenclature): trade and botanical names of European woods; values
  // from memory.
  it.each([
    ['European oak', 'Quercus robur', 'English oak'],
    ['European beech', 'Fagus sylvatica', 'Buche'],
    ['European ash', 'Fraxinus excelsior', 'frêne'],
    ['European larch', 'Larix decidua', 'mélèze'],
    ['Scots pine', 'Pinus sylvestris', 'European redwood'],
    ['Norway spruce', 'Picea abies', 'whitewood'],
    ['sycamore maple', 'Acer pseudoplatanus', 'European sycamore'],
    ['European walnut', 'Juglans regia', 'Nussbaum'],
  ])('%s is botanically %s and also %s', (said, botanical, also) => {
    for (const asked of [said, botanical, also]) expect(findSpecies(asked).name).toBe(said);
    expect(EUROPEAN_ROWS.some(({ name }) => findSpecies(name).name === said)).toBe(true);
  });

  it('has one name of its own, found whole and in any case, and the figures of its name in the index', () => {
    expect(new Set(speciesNames().map((name) => name.toLowerCase())).size).toBe(SPECIES.length);
    for (const { name, indexed, alsoCalled } of SPECIES) {
      for (const one of [name, indexed, ...alsoCalled]) {
        expect(findSpecies(one.toUpperCase()).indexed, one).toBe(indexed);
      }
      expect(speciesFigure(name, 'tangential')).toBe(speciesFigure(indexed, 'tangential'));
      expect(Object.keys(COVERS_SEVERAL)).not.toContain(name);
    }
    // Table 13-5, tangential, and table 5-3b, as they were before woods were said as people do.
    expect([moveTangential('black walnut'), specificGravity('black walnut')]).toEqual([
      moveTangential('Walnut, black'),
      specificGravity('Walnut, black'),
    ]);
    expect(moveTangential('sugar maple')).toBe(0.00353);
    expect(specificGravity('white oak')).toBe(0.68);
  });

  it('begins small within a sentence, unless with a place or a person', () => {
    const capitals = speciesNames().filter((name) => /^[A-Z]/.test(name));
    expect(capitals).toContain('American beech');
    expect(capitals).toContain('Sitka spruce');
    expect(capitals).toContain('Santa Maria');
    for (const name of ['Oak', 'Maple', 'Walnut', 'Teak', 'Khaya', 'Balsa'])
      expect(capitals.some((one) => one.split(' ').includes(name))).toBe(false);
    for (const row of [...Object.keys(SAID), ...PROPER])
      expect(
        SPECIES.some(({ indexed }) => indexed.startsWith(row)),
        row,
      ).toBe(true);
  });
});

describe('the one of some names that means the same wood', () => {
  const names = ['sugar maple', 'Walnut, black', 'Orchard plum'];

  it.each([
    ['Maple, sugar', 'sugar maple'],
    ['hard maple', 'sugar maple'],
    ['Acer saccharum', 'sugar maple'],
    ['black walnut', 'Walnut, black'],
    ['JUGLANS NIGRA', 'Walnut, black'],
  ])('is found for %s', (asked, found) => {
    expect(sameWood(asked, names)).toBe(found);
  });

  it('is none where a text names no wood, several, or one that is not among them', () => {
    for (const asked of ['', 'plutonium', 'maple', 'white oak', 'Orchard plum'])
      expect(sameWood(asked, names)).toBeUndefined();
  });
});

describe('a material', () => {
  it('is one wood under each of its names, and anything else by its letters', () => {
    const kind = materialKind('sugar maple');
    for (const name of ['hard maple', 'Maple, sugar', 'Acer saccharum', ' Sugar Maple '])
      expect(materialKind(name), name).toBe(kind);
    for (const other of ['red maple', 'maple', 'maple plywood', ''])
      expect(materialKind(other), other).not.toBe(kind);
    expect(materialKind(' Birch ply ')).toBe(materialKind('birch PLY'));
    // Several woods are sold by this name: which one it is, is not said.
    expect(materialKind('maple')).toBe('maple');
  });
});
