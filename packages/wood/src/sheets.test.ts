import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ownFromUs } from './quantity.ts';
import { sheetStiffness, sheetThickness, sheetWeight } from './sheets.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

describe('SHEET_WEIGHT', () => {
  // an answer of a maker of hinges, read: melamine board weighs about 2.5 lb/ft² at 3/4 in; the makers' sheets
  // of MDF 18 mm, read: 680 to 720 kg/m³; memory: a sheet of birch plywood, 680 kg/m³
  it('agrees with what makers print, within a tenth', () => {
    const perFoot = sheetWeight('chipboard', 144, 0.75);
    expect(Math.abs(perFoot / 2.5 - 1)).toBeLessThan(0.12);
    const kilograms = (sheet: string, mm: number): number =>
      ownFromUs('mass', sheetWeight(sheet, 1550.0031, mm / 25.4), 'metric') / (mm / 1000);
    expect(Math.abs(kilograms('MDF', 18) / 720 - 1)).toBeLessThan(0.1);
    expect(Math.abs(kilograms('birch plywood', 18) / 680 - 1)).toBeLessThan(0.01);
  });

  // Wood Handbook table 12-1, read: ranges of specific gravity; with up to 10 % of water on top
  it.each([
    ['MDF', 0.7, 0.9],
    ['particleboard', 0.6, 0.8],
    ['hardboard', 0.9, 1],
    ['OSB', 0.5, 0.8],
    ['softwood plywood', 0.4, 0.6],
  ])('%s lies between %d and %d of water', (sheet, least, most) => {
    const gravity = (sheetWeight(sheet, 1728, 1) / 62.4) * 1;
    expect(gravity).toBeGreaterThanOrEqual(least);
    expect(gravity).toBeLessThanOrEqual(most * 1.1);
  });
});

describe('SHEET_STIFFNESS', () => {
  // Wood Handbook table 12-1, read, million psi
  it.each([
    ['MDF', 0.52, 0.52],
    ['particleboard', 0.4, 0.6],
    ['hardboard', 0.45, 0.8],
    ['OSB', 0.64, 0.91],
    ['softwood plywood', 0.95, 1.24],
  ])('%s lies in the printed range', (sheet, least, most) => {
    expect(sheetStiffness(sheet)).toBeGreaterThanOrEqual(least * 1e6);
    expect(sheetStiffness(sheet)).toBeLessThanOrEqual(most * 1e6);
  });

  // Handbook of Finnish plywood, from memory: 18 mm 10048 along, 7452 across, N/mm²; their sum is the same at
  // every thickness, as it is for layers of one wood laid crosswise
  it('birch plywood goes by its thickness and its direction', () => {
    const metric = (way: string, mm: number): number =>
      ownFromUs('pressure', sheetStiffness('Baltic birch', way, mm / 25.4), 'metric');
    expect(metric('along', 18)).toBeCloseTo(10048, 6);
    expect(metric('across', 18)).toBeCloseTo(7452, 6);
    fc.assert(
      fc.property(fc.double({ min: 6.5, max: 24, noNaN: true }), (mm) => {
        expect(metric('along', mm) + metric('across', mm)).toBeCloseTo(17500, 0);
      }),
    );
  });

  it('has nothing to say across where nothing is published, and says so', () => {
    expect(faultOf(() => sheetStiffness('OSB', 'across')).message).toContain('no published');
    expect(faultOf(() => sheetStiffness('birch plywod')).message).toContain('birch plywood');
    expect(faultOf(() => sheetStiffness('plywood')).message).toContain(
      'names more than one kind of board',
    );
    expectFault(() => sheetStiffness('MDF', 'sideways'), 'unknown', 'direction');
  });
});

describe('SHEET_THICKNESS', () => {
  // pages of the trade, read: 3/4 is 23/32, 1/2 is 15/32
  it('takes a thirty-second off sanded plywood', () => {
    expect(sheetThickness('softwood plywood', 3 / 4)).toBe(23 / 32);
    expect(sheetThickness('hardwood plywood', 1 / 2)).toBe(15 / 32);
    expect(sheetThickness('MDF', 3 / 4)).toBe(3 / 4);
    expectFault(() => sheetThickness('softwood plywood', 1 / 64), 'range', 'nominal');
  });
});
