/**
 * Specific gravity is ovendry mass over a volume, and the volume shrinks as wood dries. Between
 * the green state (30 % moisture and over) and ovendry the volume is taken to shrink in proportion
 * to the moisture lost, 26.5 x basic gravity percent in all.
 * Source: Wood Handbook (FPL-GTR-190) chapter 4; ASTM D2395. Value from memory, checked against
 * the forest inventory file (tests).
 */
const SHRINK_FACTOR = 0.265;
const GREEN = 30;

/** Share of the whole drying shrinkage that has happened at a moisture content, 0 to 1. */
function dried(moisture: number): number {
  return Math.max(0, (GREEN - moisture) / GREEN);
}

/** Gravity on the volume at `moisture` (%), from basic gravity (green volume). */
export function gravityFromBasic(basic: number, moisture: number): number {
  return basic / (1 - SHRINK_FACTOR * dried(moisture) * basic);
}

/** Basic gravity, from gravity on the volume at `moisture` (%). Inverse of the above. */
export function basicFromGravity(gravity: number, moisture: number): number {
  return gravity / (1 + SHRINK_FACTOR * dried(moisture) * gravity);
}

/** Moisture content at which the tables give gravity, %. */
export const TABLE_MOISTURE = 12;

/** Gravity on the volume at `moisture` (%), from the tables' gravity. */
export function gravityAt(tableGravity: number, moisture: number): number {
  return gravityFromBasic(basicFromGravity(tableGravity, TABLE_MOISTURE), moisture);
}

/** Water, lb/ft³, as the Wood Handbook's inch-pound density equation has it. */
const WATER = 62.4;
const CUBIC_INCHES_PER_CUBIC_FOOT = 1728;

/** Density in lb/in³ of wood with its water at `moisture` (%): 62.4 x G x (1 + M/100) per ft³. */
export function densityAt(gravityAtMoisture: number, moisture: number): number {
  return (WATER * gravityAtMoisture * (1 + moisture / 100)) / CUBIC_INCHES_PER_CUBIC_FOOT;
}
