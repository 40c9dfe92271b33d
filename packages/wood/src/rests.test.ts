import { describe, expect, it } from 'vitest';
import { sagLasting } from './beams.ts';
import { dovetailAngle } from './dovetails.ts';
import { drawerGap } from './drawers.ts';
import { screwDiameter, screwHold } from './fastenings.ts';
import { hingeCount } from './frames.ts';
import { cupDepth, panelMoisture } from './lag.ts';
import { quartersRough } from './lumber.ts';
import { movement, movementSwing } from './moisture.ts';
import { withOwnTables } from './own.ts';
import { restingOn } from './rests.ts';
import { humidityForMovement } from './room.ts';
import { screwSideLoad } from './screws.ts';
import { sheetStiffness, sheetWeight } from './sheets.ts';

describe('what a result rests on', () => {
  it('is each value of the tables it took, with its origin', () => {
    const { values, cautions } = restingOn(() => movement(42, 'black oak', 8, 11, 'rift'));
    expect(values.map(({ of, how }) => [of, how])).toEqual([
      ['Black oak: movement for 1 %, flat-sawn', 'read'],
      ['Black oak: movement for 1 %, quarter-sawn', 'read'],
    ]);
    expect(values[0]?.note).toContain('74 % more');
    expect(values[0]?.source).toContain('table 13-5');
    expect(cautions).toEqual([]);
  });

  // Wood Handbook table 13-5: coefficients for 6 to 14 % moisture
  it('says when moisture is outside what the coefficients hold for', () => {
    const said = (run: () => unknown) => restingOn(run).cautions;
    expect(said(() => movement(42, 'teak', 6, 14))).toEqual([]);
    expect(said(() => movement(42, 'teak', 5.4, 10.9))).toEqual([
      'Moisture of 5.4 % is outside the 6 to 14 % that movement coefficients are fitted for: the movement is an estimate there.',
    ]);
    expect(said(() => movementSwing(42, 'teak', 4, 16))[0]).toMatch(/^Moisture of 4 % and 16 %/);
    const cups = () => cupDepth(20, 1, 'white oak', 5, 11, 'epoxy', 'none');
    expect(said(cups)[0]).toMatch(/^Moisture of 5 % is outside/);
    expect(said(() => humidityForMovement(42, 'white oak', 8, 0.1, 70))).toEqual([]);
  });

  it('is noted again where a year was worked out before', () => {
    const run = () => panelMoisture(90, 1, 'white oak', 6, 11, 'varnish, 3 coats', 'none');
    const first = restingOn(run);
    expect(restingOn(run)).toEqual(first);
    expect(first.values.map(({ of }) => of).join()).toContain('varnish, 3 coats');
  });

  it('tells one from the maker’s own table', () => {
    const own = { woods: [{ species: 'plum', gravity: 0.7 }] };
    const { values } = restingOn(() => withOwnTables(own, () => screwHold(8, 1, 'plum')));
    expect(values[0]).toMatchObject({ of: 'plum: specific gravity', value: 0.7, how: 'own' });
    expect(values.map(({ how }) => how)).toContain('memory');
  });

  // ASME B18.6.1: gauges 0 to 14 read in size charts, 20 by the formula
  it('tells a screw’s diameter apart by how it was obtained', () => {
    const how = (size: number | string) => restingOn(() => screwDiameter(size)).values[0]?.how;
    expect([how(8), how(20), how('4 mm')]).toEqual(['read', 'computed', 'read']);
  });

  it('is told though the calculation ends in a fault, and not outside', () => {
    expect(
      restingOn(() => {
        quartersRough('8/4');
        try {
          screwHold(8, 9, 'teak');
        } catch {}
      }).values,
    ).toHaveLength(1);
    quartersRough('8/4');
    expect(restingOn(() => {}).values).toEqual([]);
  });
});

describe('what functions of joints and boards rest on', () => {
  it('is each value of their own tables, with its origin', () => {
    const told = (run: () => unknown) => restingOn(run).values.map(({ of, how }) => [of, how]);
    expect(told(() => sheetWeight('MDF', 144, 1))).toEqual([['MDF: density in lb/ft³', 'read']]);
    expect(told(() => sheetStiffness('birch plywood'))).toEqual([
      ['birch plywood: stiffness along the face grain', 'memory'],
    ]);
    expect(told(() => sagLasting(0.1, 'MDF'))).toEqual([['MDF: times its first sag', 'memory']]);
    expect(told(() => hingeCount(50, 18))).toEqual([['cup hinges of such a door', 'read']]);
    expect(told(() => screwSideLoad(8, 1.5, 'white oak', 'end')).map(([of]) => of)).toContain(
      'hardwood of a gravity from 0.57 on: load across a screw, lb for in²',
    );
    expect(told(() => dovetailAngle('white oak'))[0]?.[1]).toBe('memory');
  });

  it('is cautioned where moisture lies beyond the fit, as MOVEMENT is', () => {
    const said = restingOn(() => drawerGap(6, 5.75, 'red maple', 7, 16)).cautions;
    expect(said.join(' ')).toContain('16 %');
  });
});
