import { describe, expect, it } from 'vitest';
import { screwDiameter } from './fastenings.ts';
import { finishCoverage } from './finishing.ts';
import { FUNCTIONS } from './functions.ts';
import { screwPilotHole } from './holes.ts';
import { swingFollowed } from './lag.ts';
import { movement } from './moisture.ts';
import { OWN_TABLES, type OwnTables, ownTablesOf, withOwnTables } from './own.ts';
import { moveTangential, specificGravity } from './species.ts';

/** An invented shop's own figures. */
const OWN: OwnTables = {
  woods: [
    { species: 'Orchard plum', tangential: 0.003, gravity: 0.7 },
    { species: 'Walnut, black', radial: 0.0021 },
  ],
  screws: [{ gauge: 8, diameter: 0.17 }],
  finishes: [{ finish: 'Shop mix', coverage: 500 }],
};

describe('tables of the maker’s own', () => {
  it('win over the published ones, and leave blanks to them', () => {
    withOwnTables(OWN, () => {
      expect(moveTangential('plum orchard')).toBe(0.003);
      expect(movement(10, 'black walnut', 8, 9, 'quarter')).toBeCloseTo(0.021, 12);
      expect(movement(10, 'black walnut', 8, 9, 'flat')).toBeCloseTo(0.0274, 12);
      // By another name of the same wood, and only by a whole one.
      expect(movement(10, 'Juglans nigra', 8, 9, 'quarter')).toBeCloseTo(0.021, 12);
      expect(movement(10, 'European walnut', 8, 9, 'quarter')).not.toBeCloseTo(0.021, 12);
      expect(screwDiameter(8)).toBe(0.17);
      expect(screwDiameter(10)).toBe(0.19);
      expect(finishCoverage('shop mix')).toBe(500);
      expect(finishCoverage('varnish')).toBe(450);
    });
  });

  it('are closed again, also when the calculation fails', () => {
    expect(() => withOwnTables(OWN, () => specificGravity('nothing'))).toThrow('is not known');
    expect(() => specificGravity('Orchard plum')).toThrow('is not known');
    expect(screwDiameter(8)).toBe(0.164);
  });

  it('say what is missing where nothing else has the figure', () => {
    expect(() => withOwnTables(OWN, () => movement(10, 'Orchard plum', 8, 9, 'quarter'))).toThrow(
      'Put it into the table of woods',
    );
  });

  it('count as hardwoods where that matters', () => {
    expect(withOwnTables(OWN, () => screwPilotHole(10, 'Orchard plum'))).toBe(
      screwPilotHole(10, 'white oak'),
    );
  });

  it('are not mixed up with a year worked out before', () => {
    const share = (gravity: number) =>
      withOwnTables({ woods: [{ species: 'Orchard plum', gravity }] }, () =>
        swingFollowed(1, 'Orchard plum', 6, 11),
      );
    expect(share(0.4)).toBeGreaterThan(share(0.8));
  });

  it('are looked in by every function that takes such a name', () => {
    const looks = (name: string) =>
      FUNCTIONS.filter((one) => one.name === name).flatMap(ownTablesOf);
    expect(looks('MOVEMENT')).toEqual(['woods']);
    expect(looks('SCREW_HOLD')).toEqual(['woods', 'screws']);
    expect(looks('FINISH_COVERAGE')).toEqual(['finishes']);
    expect(looks('BOARDFEET')).toEqual([]);
    expect(OWN_TABLES.map(({ kind }) => kind)).toEqual(['woods', 'screws', 'finishes', 'prices']);
  });
});
