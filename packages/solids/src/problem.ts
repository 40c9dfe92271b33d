/** What can be wrong with a shape. */
export type ProblemCode =
  /** A number that is none, or is not above zero where it has to be. */
  | 'number'
  /** An angle outside what it may be. */
  | 'angle'
  /** A number of sides, an exponent or a setting outside what it may be. */
  | 'range'
  /** A radius that needs more room than there is. */
  | 'radius'
  /** A taper to more than there is, or from beyond the piece. */
  | 'taper'
  /** An arc that cannot be. */
  | 'arc'
  /** A cut deeper than the piece. */
  | 'depth'
  /** An edge that the piece does not have. */
  | 'edge'
  /** A cut that misses the piece. */
  | 'outside'
  /** Cuts that leave nothing. */
  | 'nothing';

/** Why a shape cannot be made. */
export interface ShapeProblem {
  /** What kind of problem it is. */
  readonly code: ProblemCode;
  /** Which of the cuts it is about, from 0; undefined where it is about the blank. */
  readonly cut: number | undefined;
  /** What {@link problemSays} says, with lengths as numbers, mm. */
  readonly says: readonly (string | number)[];
}

/** Writes a length given in mm. */
export type Length = (mm: number) => string;

const inMillimetres: Length = (mm) => `${Math.round(mm * 1000) / 1000} mm`;

/** The problem as one sentence for a maker: what is wrong, what was expected, what to do. */
export const problemSays = ({ says }: ShapeProblem, format: Length = inMillimetres): string =>
  says.map((part) => (typeof part === 'number' ? format(part) : part)).join('');

/** Carries a problem from where it is found to the door, where it becomes an answer. */
export class ShapeFault extends Error {
  readonly code: ProblemCode;
  readonly says: readonly (string | number)[];

  constructor(code: ProblemCode, says: readonly (string | number)[]) {
    super(code);
    this.code = code;
    this.says = says;
  }
}

/** A sentence with its lengths kept as numbers: fault('radius')`The radius is ${12}, more than …`. */
export const fault =
  (code: ProblemCode) =>
  (texts: TemplateStringsArray, ...values: readonly (string | number)[]): ShapeFault =>
    new ShapeFault(
      code,
      texts.flatMap((text, index) => (index < values.length ? [text, values[index]!] : [text])),
    );

/** Less cannot be cut, and would be lost in rounding, mm. */
const LEAST = 0.01;
/** More is no piece of wood, mm. */
const MOST = 100_000;

const isNumber = (value: number): boolean => typeof value === 'number' && Number.isFinite(value);

/** A length above zero. */
export function size(name: string, mm: number): number {
  if (!isNumber(mm)) throw fault('number')`The ${name} is not a number; give a length above zero.`;
  if (mm < -MOST) throw fault('number')`The ${name} is far below zero; make it larger.`;
  if (mm <= 0)
    throw fault('number')`The ${name} is ${mm}; it has to be above zero, so make it larger.`;
  if (mm < LEAST)
    throw fault('number')`The ${name} is less than ${LEAST}, too little to be cut; make it larger.`;
  return notFar(name, mm);
}

/** A place: any number. */
export function place(name: string, mm: number): number {
  if (!isNumber(mm))
    throw fault('number')`The ${name} is not a number; give the place as a length.`;
  return notFar(name, mm);
}

function notFar(name: string, mm: number): number {
  if (Math.abs(mm) <= MOST) return mm;
  throw fault(
    'number',
  )`The ${name} is more than ${MOST}, further than any piece reaches; make it smaller.`;
}

/** An angle in degrees within limits. */
export function angle(name: string, degrees: number, least: number, most: number): number {
  if (!isNumber(degrees)) {
    throw fault(
      'number',
    )`The ${name} is not a number; give an angle from ${`${least} to ${most}`} degrees.`;
  }
  if (degrees >= least && degrees <= most) return degrees;
  throw fault(
    'angle',
  )`The ${name} is ${`${degrees}`} degrees; it may be ${`${least} to ${most}`}, so choose one in between.`;
}

/** A plain number within limits. */
export function within(name: string, value: number, least: number, most: number): number {
  if (!isNumber(value)) {
    throw fault('range')`The ${name} is not a number; give one from ${`${least} to ${most}`}.`;
  }
  if (value >= least && value <= most) return value;
  throw fault(
    'range',
  )`The ${name} is ${`${value}`}; it may be ${`${least} to ${most}`}, so choose one in between.`;
}
