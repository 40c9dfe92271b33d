import {
  dovetailAngle,
  dovetailCount,
  dovetailMark,
  Fault,
  fastenerCount,
  LEAST_APART,
  pocketScrew,
  SPARE_DEPTH,
  screwClearanceHole,
  screwLongest,
  screwPilotHole,
  tenonCount,
  tenonLength,
  tenonThickness,
  tenonWidth,
  USUAL_LEAVE,
} from '@kerfbook/wood';

/** The functions that formulas call, in mm: what a row leaves blank is what they come to. */

const MM = 25.4;
const inches = (mm: number): number => mm / MM;
const mm = (inch: number): number => Math.round(inch * MM * 1e6) / 1e6;

/** A mortise is deeper than its tenon is long by this, mm. */
export const SPARE = mm(SPARE_DEPTH);
/** Wood to leave beyond and beside a mortise, mm. */
export const LEAVE = mm(USUAL_LEAVE);
/** Wood to leave between two mortises, and under any other cut, mm. */
export const APART = mm(LEAST_APART);

/** Thickness of a tenon or a tongue. */
export const usualThickness = (thinner: number): number => mm(tenonThickness(inches(thinner)));
/** Width of a tenon. */
export const usualWidth = (rail: number): number => mm(tenonWidth(inches(rail)));
/** Tenons side by side. */
export const usualTenons = (width: number, thickness: number): number =>
  tenonCount(inches(width), inches(thickness));
/** Length of a tenon by the wood there is. */
export const usualLength = (thickness: number, into: number): number =>
  mm(tenonLength(inches(thickness), inches(into)));

/** What a rule shows, mm: a pin is marked out with one. */
const MARK = { us: MM / 32, metric: 0.5 } as const;

/** Width of a pin where it is narrowest, by the board's thickness; one that can be marked. */
export const usualPin = (thick: number, units: 'us' | 'metric'): number =>
  mm(inches(Math.max(1, Math.round((thick * PIN_SHARE) / MARK[units])) * MARK[units]));
/** Tails, none wider than this. */
export const usualTails = (width: number, pin: number, widest: number): number =>
  dovetailCount(inches(width), inches(pin), inches(widest));
/** Where a line of the tails is. */
export const tailMark = (width: number, tails: number, pin: number, mark: number): number =>
  mm(dovetailMark(inches(width), tails, inches(pin), mark));
/** Slope of the tails, degrees; of a wood that is not known, as of hardwoods. */
export function usualSlope(species: string): number {
  try {
    return dovetailAngle(species);
  } catch (error) {
    if (error instanceof Fault) return dovetailAngle('white oak');
    throw error;
  }
}

/** Length of a pocket screw. */
export const usualPocketScrew = (thickness: number): number => mm(pocketScrew(inches(thickness)));
/** Length of a screw that does not come through. */
export const usualScrew = (through: number, into: number): number =>
  mm(screwLongest(inches(through), inches(into), Math.min(USUAL_LEAVE, inches(into))));
/** The hole that a screw passes through. */
export const clearanceHole = (gauge: string): number => mm(screwClearanceHole(gauge));
/** The hole that a screw cuts its thread in. */
export const pilotHole = (gauge: string, species: string): number =>
  mm(screwPilotHole(gauge, species));

/** From one fastener to the next at most, and from the end to the first: common practice, no source. */
const SPACING = 6 * MM;
const FROM_END = MM;
/** The first one is no further in than a quarter of the joint. */
const MOST_IN = 1 / 4;

/** The same numbers for who writes them out, mm. */
export const USUAL_APART = { most: SPACING, fromEnd: FROM_END, share: MOST_IN } as const;

/** How far the first fastener is from the end. */
export const usualFromEnd = (along: number): number => Math.min(FROM_END, along * MOST_IN);
/** How many fasteners a joint takes. */
export const usualCount = (along: number, fromEnd: number): number =>
  fastenerCount(inches(along), inches(SPACING), inches(Math.min(fromEnd, along / 2)));

/** Dowels as they are sold, mm, thin to thick: common practice, no source. */
const DOWELS = {
  us: [1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1].map(mm),
  metric: [6, 8, 10, 12, 16, 20, 25],
} as const;
/** A dowel is up to half as thick as the thinner part, and goes four times that deep: common practice, no source. */
const DOWEL_SHARE = 1 / 2;
const DOWEL_DEPTH = 4;

/** The thickest dowel that suits a part; the thinnest that there is in a thinner one. */
export const usualDowel = (thinner: number, units: 'us' | 'metric'): number =>
  DOWELS[units].findLast((one) => one <= thinner * DOWEL_SHARE + 1e-6) ?? DOWELS[units][0] ?? 6;

/** How deep a dowel goes into a piece. */
export const usualDowelDepth = (diameter: number, wood: number): number =>
  Math.max(diameter / 2, Math.min(DOWEL_DEPTH * diameter, wood - LEAVE));

/** Drill of a pocket hole and of the hole on from there, mm, and degrees from the face: common practice, no source. */
export const POCKET = { drill: mm(3 / 8), on: mm(5 / 32), degrees: 15 } as const;

/** The screw that is taken where none is named: common practice, no source. */
export const USUAL_GAUGE = { us: 'No. 8', metric: '4 mm' } as const;

/** A pin where it is narrowest, as a share of the board's thickness, and the widest tail: common practice, no source. */
const PIN_SHARE = 1 / 3;
export const TAIL_SHARE = 5 / 2;

/** A tenon is up to so many times as wide as it is thick; wider ones are split: woodworking school handout. */
export const MOST_WIDE = 6;
