import { describe, expect, it } from 'vitest';
import { EUROPEAN_ROWS } from './data/european-woods.ts';
import { INVENTORY_ROWS, INVENTORY_STAND_INS } from './data/inventory-gravity.ts';
import { MECHANICAL_ROWS } from './data/mechanical-properties.ts';
import { COEFFICIENT_ROWS, SHRINKS_FROM_22 } from './data/movement-coefficients.ts';
import { SHRINKAGE_ROWS } from './data/shrinkage.ts';
import {
  ALSO_CALLED,
  COVERS_SEVERAL,
  GROUP_ROW,
  SAME_WOOD,
  USUAL_WOODS,
} from './data/trade-names.ts';
import { findSpecies } from './find-species.ts';
import { basicFromGravity, gravityFromBasic } from './gravity.ts';
import { coefficientFromShrinkage, SPECIES } from './species-records.ts';

const shrinkage = new Map(SHRINKAGE_ROWS.map((row) => [row[0], row]));
const names = new Set(SPECIES.map((species) => species.indexed));

const figuresOf = (name: string) => SPECIES.find((species) => species.indexed === name)?.figures;
const startsAt = (name: string): number => (SHRINKS_FROM_22.includes(name) ? 22 : 30);

describe('the published tables', () => {
  it('are whole', () => {
    expect(COEFFICIENT_ROWS).toHaveLength(128);
    expect(MECHANICAL_ROWS).toHaveLength(119);
    expect(EUROPEAN_ROWS).toHaveLength(24);
    expect(SHRINKAGE_ROWS).toHaveLength(151);
    for (const rows of [COEFFICIENT_ROWS, MECHANICAL_ROWS, SHRINKAGE_ROWS])
      expect(new Set(rows.map(([name]) => name)).size).toBe(rows.length);
  });

  it('hold values that wood can have', () => {
    for (const [name, , , radial, tangential] of COEFFICIENT_ROWS) {
      expect(radial, name).toBeGreaterThan(0.0005);
      expect(tangential, name).toBeGreaterThan(radial);
      expect(tangential, name).toBeLessThan(0.006);
    }
    for (const [name, , , at12, green, bending, stiff, hard] of MECHANICAL_ROWS) {
      const gravity = at12 ?? green;
      if (gravity === null) expect(name).toBe('Honeylocust');
      else expect(gravity > 0.15 && gravity < 1.1, name).toBe(true);
      // balsa is the lightest wood of all
      expect(bending, name).toBeGreaterThan(name === 'Balsa' ? 3000 : 6000);
      expect(stiff, name).toBeGreaterThan(name === 'Balsa' ? 0.4 : 0.7);
      expect(stiff, name).toBeLessThan(3.5);
      if (hard !== null) expect(hard, name).toBeGreaterThan(300);
    }
  });

  // Wood Handbook tables 4-3 against 13-5, by C = (S/F)/(1 - S(F-10)/F): the publication's own
  // relation. A row that does not follow says by how much in its note.
  it('agree with each other, or say by how much a coefficient does not follow from its shrinkage', () => {
    let alike = 0;
    const apart: string[] = [];
    for (const [name, , , radial, tangential] of COEFFICIENT_ROWS) {
      const row = shrinkage.get(name);
      if (!row) continue;
      for (const [printed, total, figure] of [
        [radial, row[2], figuresOf(name)?.radial],
        [tangential, row[3] ?? Number.NaN, figuresOf(name)?.tangential],
      ] as const) {
        const own = coefficientFromShrinkage(total, startsAt(name));
        const says = `would give ${own.toFixed(5)}: ${Math.round(100 * Math.abs(own / printed - 1))} %`;
        if (Math.abs(own - printed) < 0.000015) {
          alike += 1;
          expect(figure?.note ?? '', name).not.toContain('would give 0.00001');
        } else {
          apart.push(name);
          expect(figure?.note, name).toContain(says);
        }
      }
    }
    expect(alike).toBeGreaterThanOrEqual(160);
    expect(apart).toContain('Oak, black');
    expect(figuresOf('Oak, black')?.tangential?.note).toMatch(/would give 0\.00400: 74 % more/);
    expect(figuresOf('Mahogany')?.tangential?.note).toMatch(/from 22 % .*: 20 % less/);
  });

  // table 4-3 shrinkages that were read: 4.6/8.2 % of yellow-poplar, 4.8/7.6 % of coast Douglas-fir
  it('count a remembered coefficient as worked out where a shrinkage that was read comes to it', () => {
    for (const name of ['Yellow-poplar', 'Douglas-fir, coast', 'Cedar, western redcedar'])
      expect(figuresOf(name)?.tangential).toMatchObject({ how: 'computed' });
    expect(figuresOf('Pine, loblolly')?.tangential?.how).toBe('memory');
  });
});

describe('specific gravity', () => {
  const inventory = new Map(INVENTORY_ROWS.map((row) => [row[0], row]));

  // USDA forest inventory species file (after Miles and Smith, NRS-38), read
  it('of the handbook agrees with the forest inventory file, seven recorded woods apart', () => {
    const apart = MECHANICAL_ROWS.filter(([name, , , at12]) => {
      const row = inventory.get(name);
      return row && at12 !== null && Math.abs(at12 - row[3]) > 0.001;
    }).map(([name]) => name);
    expect(apart.sort()).toEqual([
      'Cedar, eastern redcedar',
      'Douglas-fir, interior west',
      'Oak, cherrybark',
      'Redwood, old-growth',
      'Redwood, young-growth',
      'Spruce, Sitka',
      'Spruce, white',
    ]);
  });

  // the same file gives both volumes: the volume relation of chapter 4 must carry one to the other
  it('is carried from the green volume to 12 % as the inventory file has it', () => {
    const errors = INVENTORY_ROWS.filter(([name]) => !INVENTORY_STAND_INS.includes(name)).map(
      ([, , green, at12]) => gravityFromBasic(green, 12) - at12,
    );
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    expect(Math.abs(mean)).toBeLessThan(0.006);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.06);
  });

  it('goes to the green volume and back unchanged', () => {
    for (const moisture of [0, 6, 12, 20, 30, 80])
      expect(gravityFromBasic(basicFromGravity(0.68, moisture), moisture)).toBeCloseTo(0.68, 14);
    expect(gravityFromBasic(0.6, 30)).toBe(0.6);
    expect(gravityFromBasic(0.6, 100)).toBe(0.6);
  });
});

describe('the joined records', () => {
  it('hold every wood of both tables once', () => {
    expect(SPECIES).toHaveLength(174);
    expect(names.size).toBe(174);
    for (const [row] of [...COEFFICIENT_ROWS, ...MECHANICAL_ROWS])
      expect(names.has(SAME_WOOD[row] ?? row), row).toBe(true);
  });

  it('give every wood a movement in both directions, with a source and how it was obtained', () => {
    for (const { indexed: name, figures } of SPECIES) {
      expect(figures.radial, name).toBeDefined();
      expect(figures.tangential, name).toBeDefined();
      const european = EUROPEAN_ROWS.some((row) => row.name === name);
      for (const { value, how, source } of Object.values(figures)) {
        expect(value, name).toBeGreaterThan(0);
        if (!european) expect(source, name).toMatch(/Wood Handbook|USDA/);
        expect(source.length, name).toBeGreaterThan(10);
        expect(['read', 'memory', 'seen older', 'computed', 'group']).toContain(how);
      }
    }
  });

  it('say what was worked out here, and from what', () => {
    const worked = SPECIES.filter(
      ({ indexed, figures }) =>
        figures.tangential?.how === 'computed' &&
        !COEFFICIENT_ROWS.some(([row]) => row === indexed),
    );
    expect(worked.map(({ indexed }) => indexed)).toEqual([
      'Aspen, bigtooth',
      'Bubinga',
      'Fir, grand',
      'Ipe',
      'Jatoba',
      'Meranti, white',
      'Meranti, yellow',
      'Purpleheart',
      'Sapele',
    ]);
    for (const { figures } of worked) expect(figures.tangential?.note).toMatch(/total shrinkage/);
  });

  // German timber trade association: European oak 0.16/0.36 % for 1 %, beech 0.20/0.41 (read);
  // beech 712 kg/m³ at 12 %: 712/1000/1.12 = 0.636; 14,000 N/mm² x 145.04 = 2,030,000 psi
  it('hold the woods of European yards, by their names there', () => {
    expect(findSpecies('chêne').name).toBe('European oak');
    expect(findSpecies('Buche').name).toBe('European beech');
    expect(findSpecies('Lärche').name).toBe('European larch');
    expect(findSpecies('pin sylvestre').name).toBe('Scots pine');
    expect(figuresOf('Oak, European')).toMatchObject({
      radial: { value: 0.0016, how: 'read' },
      tangential: { value: 0.0036, how: 'read' },
    });
    expect(figuresOf('Beech, European')).toMatchObject({
      specificGravity: { value: 0.636, how: 'computed' },
      stiffness: { value: 2_030_000, how: 'read' },
    });
    // ovendry 590 kg/m³ to 12 % volume: 0.59 / (1 + 0.265 x 0.59) = 0.510 green, 0.552 at 12 %
    expect(figuresOf('Maple, sycamore')?.specificGravity?.value).toBeCloseTo(0.552, 2);
  });

  it('mark remembered values as remembered', () => {
    const oak = SPECIES.find(({ name }) => name === 'white oak');
    expect(oak?.figures.specificGravity).toMatchObject({ value: 0.68, how: 'read' });
    expect(oak?.figures.tangential).toMatchObject({ value: 0.00365, how: 'group' });
    const alder = SPECIES.find(({ name }) => name === 'red alder');
    expect(alder?.figures.tangential).toMatchObject({ value: 0.00256, how: 'read' });
  });

  it('only name woods that exist in the lists of names', () => {
    const mentioned = [
      ...Object.values(SAME_WOOD),
      ...Object.entries(GROUP_ROW).flat(),
      ...Object.keys(ALSO_CALLED),
      ...Object.values(COVERS_SEVERAL).flat(),
      ...USUAL_WOODS,
    ];
    for (const name of mentioned) expect(names.has(name), name).toBe(true);
  });

  it('keep what the trade says apart from rows of other tables', () => {
    for (const { indexed, alsoCalled } of SPECIES) {
      const rows = alsoCalled.filter((name) => SAME_WOOD[name] !== undefined);
      expect([...rows, ...(ALSO_CALLED[indexed] ?? [])], indexed).toEqual(alsoCalled);
    }
  });
});
