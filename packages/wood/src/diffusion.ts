/** Gas constant of the published equation, cal/(mol K). */
const R = 1.987;

/**
 * How fast bound water spreads across the grain.
 * @param gravity ovendry mass over the volume at `moisture`
 * @param moisture % moisture content, 0 to 30
 * @param kelvin temperature of the wood, K
 * @returns m²/s
 * Source: J. F. Siau, Transport Processes in Wood (1984), transverse diffusion through cell walls
 * and lumens with the lumens taken as no resistance (value from memory). Measured woods scatter
 * about it by a factor of two or three.
 */
export function acrossGrain(gravity: number, moisture: number, kelvin: number): number {
  const wall = 0.07e-4 * Math.exp(-(9200 - 70 * moisture) / (R * kelvin));
  const porosity = 1 - gravity * (0.667 + 0.01 * moisture);
  const side = Math.sqrt(porosity);
  return wall / ((1 - porosity) * (1 - side));
}

/**
 * Share of the final change that a sheet has taken up after a time, both faces alike.
 * @param fourier D t / l², l half the thickness
 * @param biot l S / D, S the transfer coefficient of a face; more than 0
 * @returns 0 to 1
 * Source: J. Crank, The Mathematics of Diffusion (1975), plane sheet with surface evaporation.
 */
export function takenUp(fourier: number, biot: number): number {
  let left = 0;
  for (let n = 0; n < 60; n += 1) {
    const beta = root(n, biot);
    const part =
      ((2 * biot ** 2) / (beta ** 2 * (beta ** 2 + biot ** 2 + biot))) *
      Math.exp(-(beta ** 2) * fourier);
    left += part;
    if (part < 1e-12) break;
  }
  return 1 - left;
}

/** The n-th positive root of β tan β = biot, by halving. */
function root(n: number, biot: number): number {
  let [low, high] = [n * Math.PI, (n + 0.5) * Math.PI];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (middle * Math.sin(middle) < biot * Math.cos(middle) === (n % 2 === 0)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A panel looked at through its thickness. */
export interface Sheet {
  /** m */
  readonly thickness: number;
  /** m²/s at a moisture content, %. */
  readonly diffusivity: (moisture: number) => number;
  /** Transfer coefficient of each face, m/s: flux over the difference to the air's equilibrium. */
  readonly faces: readonly [above: number, below: number];
}

/**
 * Moisture of a sheet over time, in equal slices from above to below. Fick's second law in one
 * dimension, finite volumes, the middle of each step (Crank and Nicolson), diffusivity as at its
 * start.
 */
export class Slices {
  /** % of each slice. */
  readonly moisture: Float64Array;
  readonly #sheet: Sheet;
  readonly #slice: number;
  /** Resistance of half of each slice, s/m. */
  readonly #half: Float64Array;
  readonly #over: Float64Array;

  constructor(sheet: Sheet, count: number, moisture: number) {
    this.moisture = new Float64Array(count).fill(moisture);
    this.#sheet = sheet;
    this.#slice = sheet.thickness / count;
    this.#half = new Float64Array(count);
    this.#over = new Float64Array(count);
  }

  /** Mean moisture content, %. */
  get mean(): number {
    return this.moisture.reduce((sum, m) => sum + m, 0) / this.moisture.length;
  }

  /** Slope of the best straight line through the slices, % for each metre from above to below. */
  get lean(): number {
    const count = this.moisture.length;
    const moment = this.moisture.reduce((sum, m, i) => sum + m * (i + 0.5 - count / 2), 0);
    return (12 * moment) / (count ** 3 * this.#slice);
  }

  /**
   * Carries the moisture on by one step.
   * @param seconds length of the step
   * @param air equilibrium moisture content of the air, %: the mean of the step's two ends. Taken at its
   * middle instead, a thin panel would swing a little further than the air.
   */
  advance(seconds: number, air: number): void {
    const { moisture } = this;
    const count = moisture.length;
    for (let i = 0; i < count; i += 1) {
      this.#half[i] = this.#slice / (2 * this.#sheet.diffusivity(moisture[i] as number));
    }
    const share = seconds / (2 * this.#slice);
    // Elimination down and back up (Thomas); `up` and `down` are what a slice exchanges with its
    // neighbours, or with the air at both ends.
    let up = share * this.#passes(0);
    let above = air;
    let known = 0;
    let over = 0;
    for (let i = 0; i < count; i += 1) {
      const down = share * this.#passes(i + 1);
      const [own, below] = [
        moisture[i] as number,
        i + 1 < count ? (moisture[i + 1] as number) : air,
      ];
      const ends = (i === 0 ? up * air : 0) + (i === count - 1 ? down * air : 0);
      const right = own + up * (above - own) + down * (below - own) + ends;
      const before = i === 0 ? 0 : up;
      const pivot = 1 + up + down - before * over;
      known = (right + before * known) / pivot;
      over = (i === count - 1 ? 0 : down) / pivot;
      above = own;
      moisture[i] = known;
      this.#over[i] = over;
      up = down;
    }
    for (let i = count - 2; i >= 0; i -= 1) {
      moisture[i] =
        (moisture[i] as number) + (this.#over[i] as number) * (moisture[i + 1] as number);
    }
  }

  /** What passes between a slice and the one above it, m/s; the air is above the first. */
  #passes(i: number): number {
    const half = this.#half;
    const [above, below] = this.#sheet.faces;
    if (i === 0) return 1 / (1 / above + (half[0] as number));
    if (i === half.length) return 1 / (1 / below + (half[i - 1] as number));
    return 1 / ((half[i - 1] as number) + (half[i] as number));
  }
}
