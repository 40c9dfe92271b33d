import type { How } from './provenance.ts';

/** One kind of board, us units. */
export interface SheetGood {
  /** As it is asked for; the first name is the one that is listed. */
  readonly names: readonly [string, ...string[]];
  /** Density, lb/ft³, as it comes. */
  readonly density: number;
  /** How the density was obtained. */
  readonly densityHow: How;
  /** Stiffness (modulus of elasticity) along the face grain, million psi. */
  readonly along: number;
  /** Across it; left out where no source gives it. */
  readonly across?: number;
  /** How the stiffness was obtained. */
  readonly how: How;
  /** Where both come from. */
  readonly source: string;
  /** What is known against them. */
  readonly note?: string;
  /** Where the stiffness depends on the thickness: thickness in mm, along, across in N/mm². */
  readonly byThickness?: readonly (readonly [thickness: number, along: number, across: number])[];
  /** What sheets of it are thinner than their name says, in. */
  readonly under?: number;
}

const TABLE = 'Wood Handbook (FPL-GTR-190, 2010), table 12-1';
const STANDARDS = 'Architectural Woodwork Standards (2009), 4.4.14.10';
const MIDDLE = 'Density from the middle of the printed range of gravity';

/** Table 12-1 prints ranges: the least of stiffness is taken, and the middle of gravity with some water on top. */
export const SHEET_SOURCE =
  'Wood Handbook (FPL-GTR-190, 2010), table 12-1, read, the least of its ranges of stiffness; Douglas-fir and hardwood plywood: Architectural Woodwork Standards (2009), read, the lower one; birch plywood: Handbook of Finnish plywood, from memory';

export const SHEET_GOODS: readonly SheetGood[] = [
  {
    names: ['MDF', 'medium-density fiberboard', 'fibreboard'],
    density: 47,
    densityHow: 'read',
    along: 0.52,
    across: 0.52,
    how: 'read',
    source: TABLE,
    note: 'Makers print 620 to 800 kg/m³ by thickness, and 0.41 million psi up to 20 mm',
  },
  {
    names: ['particleboard', 'particle board', 'chipboard'],
    density: 44,
    densityHow: 'read',
    along: 0.4,
    across: 0.4,
    how: 'read',
    source: TABLE,
    note: `${MIDDLE}. Shelf grades of ANSI A208.1 may be as low as 0.23 million psi (from memory)`,
  },
  {
    names: ['hardboard'],
    density: 59,
    densityHow: 'read',
    along: 0.45,
    across: 0.45,
    how: 'read',
    source: TABLE,
    note: MIDDLE,
  },
  {
    names: ['OSB', 'oriented strandboard'],
    density: 41,
    densityHow: 'read',
    along: 0.64,
    how: 'read',
    source: TABLE,
    note: MIDDLE,
  },
  {
    names: ['softwood plywood', 'Douglas-fir plywood'],
    density: 35,
    densityHow: 'read',
    along: 0.95,
    how: 'read',
    source: STANDARDS,
    note: 'Table 12-1 prints 1.01 to 1.24 million psi and a gravity of 0.4 to 0.6',
    under: 1 / 32,
  },
  {
    names: ['hardwood plywood', 'veneer core plywood'],
    density: 38,
    densityHow: 'memory',
    along: 0.95,
    how: 'read',
    source: STANDARDS,
    note: 'The standards print 1.80 million psi for hardwood faces, as much as the face wood alone: the 0.95 of Douglas-fir veneer core is taken',
    under: 1 / 32,
  },
  {
    names: ['birch plywood', 'baltic birch'],
    density: 42.5,
    densityHow: 'memory',
    along: 1.457,
    across: 1.081,
    how: 'memory',
    source: 'Handbook of Finnish plywood, mean values by thickness',
    byThickness: [
      [6.5, 12737, 4763],
      [9, 11395, 6105],
      [12, 10719, 6781],
      [15, 10316, 7184],
      [18, 10048, 7452],
      [21, 9858, 7642],
      [24, 9717, 7783],
    ],
  },
];
