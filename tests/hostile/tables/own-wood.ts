/**
 * Wood as the judge knows it, beside the tables of the functions: coefficients of dimensional change
 * from the Wood Handbook (FPL-GTR-190), table 13-5; specific gravity and stiffness at 12 % moisture
 * from its table 5-3b, partly from memory; moisture from its equation 4-5. European woods: differential
 * swelling of the German timber trade (as in DIN 68100), strength and stiffness after Niemz (1993).
 */

/** One wood. */
export interface OwnWood {
  /** Change across the growth rings, a part of 1 for each 1 % of moisture. */
  readonly radial: number;
  /** Change along the growth rings. */
  readonly tangential: number;
  /** Specific gravity at 12 %. */
  readonly gravity: number;
  /** Modulus of elasticity at 12 %, psi. */
  readonly stiffness: number;
  /** Modulus of rupture at 12 %, psi. */
  readonly strength: number;
}

const wood = (
  radial: number,
  tangential: number,
  gravity: number,
  millions: number,
  strength: number,
): OwnWood => ({ radial, tangential, gravity, stiffness: millions * 1e6, strength });

export const OWN_WOODS: Readonly<Record<string, OwnWood>> = {
  'black walnut': wood(0.0019, 0.00274, 0.55, 1.68, 14_600),
  'white oak': wood(0.0018, 0.00365, 0.68, 1.78, 15_200),
  'northern red oak': wood(0.00158, 0.00369, 0.63, 1.82, 14_300),
  'sugar maple': wood(0.00165, 0.00353, 0.63, 1.83, 15_800),
  'red maple': wood(0.00137, 0.00289, 0.54, 1.64, 13_400),
  'black cherry': wood(0.00126, 0.00248, 0.5, 1.49, 12_300),
  'white ash': wood(0.00169, 0.00274, 0.6, 1.74, 15_000),
  'American beech': wood(0.0019, 0.00431, 0.64, 1.72, 14_900),
  'yellow birch': wood(0.00256, 0.00338, 0.62, 2.01, 16_600),
  'yellow-poplar': wood(0.00158, 0.00289, 0.42, 1.58, 10_100),
  'red alder': wood(0.00151, 0.00256, 0.41, 1.38, 9_800),
  'coast Douglas-fir': wood(0.00165, 0.00267, 0.48, 1.95, 12_400),
  'eastern white pine': wood(0.00071, 0.00212, 0.35, 1.24, 8_600),
  'ponderosa pine': wood(0.00133, 0.00216, 0.4, 1.29, 9_400),
  'European oak': wood(0.0016, 0.0036, 0.63, 1.89, 13_800),
  'European beech': wood(0.002, 0.0041, 0.64, 2.03, 17_400),
  'European ash': wood(0.0021, 0.0038, 0.62, 1.89, 15_200),
  'European larch': wood(0.0014, 0.003, 0.53, 1.74, 13_500),
  'Scots pine': wood(0.0019, 0.0036, 0.46, 1.6, 11_600),
};

/** @throws RangeError where the judge has no figures for it */
export function ownWood(species: string): OwnWood {
  const found = OWN_WOODS[species];
  if (found === undefined) throw new RangeError(`the judge knows no wood called ${species}`);
  return found;
}

/** What moisture wood settles at, %: equation 4-5, the constants for °F. */
export function settles(fahrenheit: number, humidity: number): number {
  const t = fahrenheit;
  const h = humidity / 100;
  const weight = 330 + 0.452 * t + 0.00415 * t ** 2;
  const k = 0.791 + 0.000463 * t - 0.000000844 * t ** 2;
  const k1 = 6.34 + 0.000775 * t - 0.0000935 * t ** 2;
  const k2 = 1.09 + 0.0284 * t - 0.0000904 * t ** 2;
  const free = (k * h) / (1 - k * h);
  const bound =
    (k1 * k * h + 2 * k1 * k2 * (k * h) ** 2) / (1 + k1 * k * h + k1 * k2 * (k * h) ** 2);
  return (1800 / weight) * (free + bound);
}

/** How wide a width gets for a change of moisture, a part of 1; rift lies half-way. */
export function swells(species: string, cut: string, percent: number): number {
  const { radial, tangential } = ownWood(species);
  const rate = cut === 'quarter' ? radial : cut === 'rift' ? (radial + tangential) / 2 : tangential;
  return rate * percent;
}

/** lb of a volume in in³ at a moisture: gravity at 12 % rests on the volume at 12 %. */
export const weighs = (species: string, volume: number, moisture: number): number =>
  (volume / 1728) * 62.4 * ownWood(species).gravity * (1 + moisture / 100);

/** What boards of some quarters plane to on both faces, in: NHLA's table for surfaced hardwood. */
export const PLANED: Readonly<Record<string, number>> = {
  '4/4': 13 / 16,
  '5/4': 17 / 16,
  '6/4': 21 / 16,
  '8/4': 1.75,
  '10/4': 2.25,
  '12/4': 2.75,
  '16/4': 3.75,
};
