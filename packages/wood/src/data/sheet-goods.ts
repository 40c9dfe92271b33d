/** One kind of board, us units. */
export interface SheetGood {
  /** As it is asked for; the first name is the one that is listed. */
  readonly names: readonly [string, ...string[]];
  /** Density, lb/ft³, as it comes. */
  readonly density: number;
  /** Stiffness (modulus of elasticity) along the face grain, million psi. */
  readonly along: number;
  /** Across it; left out where no source gives it. */
  readonly across?: number;
  /** Where it depends on the thickness: thickness in mm, along, across in N/mm². */
  readonly byThickness?: readonly (readonly [thickness: number, along: number, across: number])[];
  /** What sheets of it are thinner than their name says, in. */
  readonly under?: number;
}

/** Table 12-1 prints ranges: the mean of the gravity (12 % of water counted in), the least stiffness. */
export const SHEET_SOURCE =
  'Wood Handbook (FPL-GTR-190, 2010), table 12-1, read, the least of its ranges of stiffness; Douglas-fir and hardwood plywood: Architectural Woodwork Standards (2009), read, the lower one; birch plywood: Handbook of Finnish plywood, from memory';

export const SHEET_GOODS: readonly SheetGood[] = [
  // gravity 0.7 to 0.9, 0.52 million psi in table 12-1; makers' sheets print 650 to 800 kg/m³
  {
    names: ['MDF', 'medium-density fiberboard', 'fibreboard'],
    density: 47,
    along: 0.52,
    across: 0.52,
  },
  // gravity 0.6 to 0.8, 0.40 to 0.60
  { names: ['particleboard', 'particle board', 'chipboard'], density: 44, along: 0.4, across: 0.4 },
  // gravity 0.9 to 1.0, 0.45 to 0.80
  { names: ['hardboard'], density: 59, along: 0.45, across: 0.45 },
  // gravity 0.5 to 0.8, 0.64 to 0.91
  { names: ['OSB', 'oriented strandboard'], density: 41, along: 0.64 },
  // gravity 0.4 to 0.6, 1.01 to 1.24 in table 12-1; 0.95 for shelves of Douglas-fir veneer core
  { names: ['softwood plywood', 'Douglas-fir plywood'], density: 35, along: 0.95, under: 1 / 32 },
  // the standards print 1.80 for it, as much as its face wood alone: the core's 0.95 is taken
  { names: ['hardwood plywood', 'veneer core plywood'], density: 38, along: 0.95, under: 1 / 32 },
  {
    names: ['birch plywood', 'baltic birch'],
    density: 42.5,
    along: 1.457,
    across: 1.081,
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
