import { describe, expect, it } from 'vitest';
import { acrossGrain, Slices, takenUp } from './diffusion.ts';
import { gravityAt } from './gravity.ts';
import { specificGravity } from './species.ts';

describe('takenUp', () => {
  // J. Crank, The Mathematics of Diffusion (1975): half of the change is there when D t over the
  // whole thickness squared is 0.049 (value from memory); l here is half the thickness.
  it('is a half at the published time for a face without resistance', () => {
    expect(takenUp(4 * 0.049, 1e6)).toBeCloseTo(0.5, 2);
  });

  // Crank, short times: M/M∞ = (4/√π) √(D t / L²), L the whole thickness.
  it.each([0.001, 0.01, 0.04])('grows with the root of time at first: %s', (fourier) => {
    expect(takenUp(fourier, 1e6)).toBeCloseTo((4 / Math.sqrt(Math.PI)) * Math.sqrt(fourier / 4), 3);
  });

  // With the resistance all at the face, the sheet is one vessel: 1 − exp(−biot x fourier).
  it.each([1, 20, 100])('is one exponential for a tight film: %s', (fourier) => {
    expect(takenUp(fourier, 0.001)).toBeCloseTo(1 - Math.exp(-0.001 * fourier), 4);
  });
});

const STILL = 1e-10;

describe('Slices', () => {
  const thickness = 0.02;

  it.each([
    [5, 'a loose film', 0.5],
    [5, 'a tight film', 30],
    [12, 'a bare face', 300],
    [40, 'a loose film', 0.5],
  ])('after %s days, with %s, follows the analytical solution', (days, _film, biot) => {
    const transfer = (biot * STILL) / (thickness / 2);
    const sheet = { thickness, diffusivity: () => STILL, faces: [transfer, transfer] } as const;
    const slices = new Slices(sheet, 60, 6);
    for (let step = 0; step < days * 200; step += 1) slices.advance(86_400 / 200, 12);
    const fourier = (STILL * days * 86_400) / (thickness / 2) ** 2;
    expect((slices.mean - 6) / 6).toBeCloseTo(takenUp(fourier, biot), 3);
  });

  it('loses nothing: what the faces let in is what the slices hold', () => {
    const sheet = { thickness, diffusivity: () => STILL, faces: [1e-7, 1e-30] } as const;
    const slices = new Slices(sheet, 16, 8);
    for (let step = 0; step < 2000; step += 1) slices.advance(86_400, 11);
    for (const moisture of slices.moisture) expect(moisture).toBeCloseTo(11, 6);
  });

  // Fick's second law for a wave of period T is solved by cosh and sinh of x √(iω/D): textbook.
  it.each([
    [1e-7, 1e-7],
    [1e-9, 4e-9],
    [3e-9, 1e-30],
  ])('with faces of %s and %s swings as the analytical wave does', (above, below) => {
    const year = 365 * 86_400;
    const sheet = { thickness: 0.04, diffusivity: () => STILL, faces: [above, below] } as const;
    const slices = new Slices(sheet, 64, 8);
    const steps = 365;
    const omega = (2 * Math.PI) / year;
    let [real, imaginary, lean] = [0, 0, 0];
    for (let step = 0; step < 12 * steps; step += 1) {
      const time = (step * year) / steps;
      if (step >= 11 * steps) {
        real += ((slices.mean - 8) * Math.cos(omega * time) * 2) / steps;
        imaginary -= ((slices.mean - 8) * Math.sin(omega * time) * 2) / steps;
        lean = Math.max(lean, Math.abs(slices.lean));
      }
      slices.advance(year / steps, 8 + 2 * Math.cos(omega * (time + year / steps / 2)));
    }
    const exact = waveMean(0.04, STILL, above, below, omega);
    expect(real).toBeCloseTo(2 * exact[0], 2);
    expect(imaginary).toBeCloseTo(2 * exact[1], 2);
    expect(lean < 1e-9).toBe(above === below);
  });
});

type Complex = readonly [number, number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];
const over = (a: Complex, [c, d]: Complex): Complex => {
  const size = c * c + d * d;
  return times(a, [c / size, -d / size]);
};
const cosh = ([a, b]: Complex): Complex => [Math.cosh(a) * Math.cos(b), Math.sinh(a) * Math.sin(b)];
const sinh = ([a, b]: Complex): Complex => [Math.sinh(a) * Math.cos(b), Math.cosh(a) * Math.sin(b)];

/** Mean through the sheet of the wave P cosh kx + Q sinh kx that air of amplitude 1 makes. */
function waveMean(
  thickness: number,
  across: number,
  above: number,
  below: number,
  omega: number,
): Complex {
  const root = Math.sqrt(omega / across / 2);
  const k: Complex = [root, root];
  const kl: Complex = [root * thickness, root * thickness];
  const scale = (a: Complex, by: number): Complex => [a[0] * by, a[1] * by];
  // above: D k Q = S (P − 1); below: −D k (P sinh + Q cosh) = S (P cosh + Q sinh − 1).
  const q = over(scale([1, 0], above), scale(k, across));
  const c = plus(scale(times(k, sinh(kl)), across), scale(cosh(kl), below));
  const s = plus(scale(times(k, cosh(kl)), across), scale(sinh(kl), below));
  // Q = q P − q
  const p = over(plus([below, 0], times(q, s)), plus(c, times(q, s)));
  const second = plus(times(q, p), scale(q, -1));
  const whole = plus(times(p, sinh(kl)), times(second, plus(cosh(kl), [-1, 0])));
  return over(whole, kl);
}

describe('acrossGrain', () => {
  // W. T. Simpson, Wood and Fiber Science: measured on aspen at 110 °F, the coefficient grows about
  // eightfold from 2.5 to 18 % (read in its abstract). The equation has less of it.
  it('grows with moisture nearly as measured on aspen', () => {
    const aspen = specificGravity('Aspen, quaking');
    const at = (moisture: number) => acrossGrain(gravityAt(aspen, moisture), moisture, 316.5);
    const growth = at(18) / at(2.5);
    expect(growth).toBeGreaterThan(4);
    expect(growth).toBeLessThan(8);
  });

  it('is slower in heavier and in colder wood', () => {
    expect(acrossGrain(0.7, 8, 294)).toBeLessThan(acrossGrain(0.4, 8, 294) / 2);
    expect(acrossGrain(0.4, 8, 284)).toBeLessThan(acrossGrain(0.4, 8, 294));
  });

  // Common textbook range for wood across the grain at room temperature, m²/s: value from memory.
  it.each(['Pine, eastern white', 'Cherry, black', 'Oak, white'])(
    '%s lies in the usual range',
    (wood) => {
      const across = acrossGrain(gravityAt(specificGravity(wood), 8), 8, 294);
      expect(across).toBeGreaterThan(5e-12);
      expect(across).toBeLessThan(5e-10);
    },
  );
});
