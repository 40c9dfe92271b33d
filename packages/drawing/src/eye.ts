/**
 * Where a parallel projection is looked at from. `azimuth` 0 is the view from the front, 90 the one
 * from the right end; `elevation` 0 is level, 90 straight down, negative from below. Degrees.
 */
export interface Eye {
  /** Degrees about the upright: 0 from the front, 90 from the right end. */
  readonly azimuth: number;
  /** Degrees above level: 90 looks straight down, below 0 from underneath. */
  readonly elevation: number;
}

/** From the right front, a little from above: what a scene gets for which no better eye is looked for. */
export const DEFAULT_EYE: Eye = { azimuth: 40, elevation: 16 };

/** Three numbers, for x, y and z. */
export type Triple = readonly [number, number, number];

/** Directions of a view: right and up on the paper, and towards the eye; unit vectors, square to each other. */
export interface Gaze {
  readonly right: Triple;
  readonly up: Triple;
  readonly toEye: Triple;
}

/** Below this a direction counts as none: the sine of a turn nobody could see. */
const NONE = 1e-9;

/**
 * The directions an eye looks along.
 * @throws RangeError when a turn is not a number or an elevation is beyond straight up or down
 */
export function gazeOf({ azimuth, elevation }: Eye): Gaze {
  if (!Number.isFinite(azimuth) || !Number.isFinite(elevation) || Math.abs(elevation) > 90) {
    throw new RangeError(
      `A view is turned by ${azimuth}° and raised by ${elevation}°; it takes a number of degrees and -90 to 90.`,
    );
  }
  const [sa, ca] = sineAndCosine(azimuth % 360);
  const [se, ce] = sineAndCosine(elevation);
  return {
    right: [ca, sa, 0],
    up: [flat(-se * sa), flat(se * ca), ce],
    toEye: [flat(ce * sa), flat(-ce * ca), se],
  };
}

function sineAndCosine(degrees: number): readonly [number, number] {
  const radians = (degrees * Math.PI) / 180;
  return [flat(Math.sin(radians)), flat(Math.cos(radians))];
}

/** Square turns come out square, though pi is not a binary fraction. */
const flat = (value: number): number => (Math.abs(value) < NONE ? 0 : value);
