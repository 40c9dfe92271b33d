import { describe, expect, it } from 'vitest';
import { readPlan } from '../plan.ts';
import { type Row, stepBook } from '../testing/step-book.ts';
import { figureOf, figuresOf } from './figures.ts';
import { Stage } from './stage.ts';

const PLACED: readonly Row[] = [
  { part: 'Seat <b>', count: 1, thickness: 1.25, width: 12, length: 33, x: 0, y: 0, z: 16.1875 },
  {
    part: 'Leg',
    count: 4,
    thickness: 1.5,
    width: 1.5,
    length: 16.1875,
    place: 'four corners of Seat <b>',
    x: 1,
    y: 1,
  },
  { part: 'Dowel', count: 1, thickness: 1, width: 1, length: 4 },
];
const STEPS: readonly Row[] = [
  { step: 'Look at it' },
  { step: 'Make the seat', builds: 'Seat <b>', measure: 'seat_length' },
  { step: 'Put on the legs', builds: 'Leg' },
  { step: 'Rest', figure: 'none' },
  { step: 'Turn a dowel', builds: 'Dowel' },
];

describe('what a step puts on', () => {
  it('stands in its tone on what stands so far, named, its sizes beneath', () => {
    const book = stepBook({ steps: STEPS, parts: PLACED });
    const plan = readPlan(book);
    const figures = figuresOf(book, plan);
    const svgOf = (key: string): string => figures.get(key)?.svg ?? '';
    const [look, seat, , , dowel] = plan.steps.map(({ key }) => svgOf(key));
    expect(figures.size).toBe(4);
    expect(look).toContain('kb-quiet');
    expect(look).not.toContain('kb-new');
    expect(seat).toContain('kb-new');
    expect(seat).toContain('Seat &lt;b&gt;: 1 1/4 × 12 × 33 in');
    expect(seat).toContain('Length of the seat: 33 3/16 in');
    expect(dowel).toContain('Dowel: 1 × 1 × 4 in');
    expect(dowel).not.toContain('kb-new');
    for (const { svg, says } of figures.values()) {
      expect(svg).toMatch(/^<svg [^>]*role="img" viewBox="[\d. -]+">\n<title>/);
      expect(svg).not.toMatch(/style=|NaN|<b>/);
      expect(says).not.toBe('');
    }
  });

  it('is the same by itself as with the others', () => {
    const book = stepBook({ steps: STEPS, parts: PLACED });
    const plan = readPlan(book);
    const all = figuresOf(book, plan);
    for (const step of plan.steps) expect(figureOf(book, plan, step)).toEqual(all.get(step.key));
  });

  it('lies upside down where its step turns it over: what stood below is drawn above', () => {
    const steps: readonly Row[] = [
      { step: 'Put on the legs', builds: 'Leg' },
      { step: 'Set it on the seat', builds: 'Seat <b>', figure: 'turned over' },
      { step: 'Turn a dowel', builds: 'Dowel' },
    ];
    const under = { count: 1, length: 33, width: 12, place: '', x: 0, y: 0, z: 8 };
    const parts = PLACED.map((row) => (row.part === 'Leg' ? { ...row, ...under } : row));
    const book = stepBook({ steps, parts });
    const plan = readPlan(book);
    expect(plan.problems).toEqual([]);
    const [, step] = plan.steps;
    if (step === undefined) throw new Error('no step');
    expect(figureOf(book, plan, step)?.caption).toBe('Drawn upside down, as it lies now.');
    const stage = new Stage(book, plan, {});
    /** How high up on the paper what is seen of a part is, in the middle; and how light its upper face is. */
    const seen = (from: Stage, name: string): { high: number; lit: number } => {
      const faces = (from.view(from.scene.pieces)?.pieces ?? [])
        .filter(({ piece }) => piece.part.name === name)
        .flatMap(({ faces: all }) => all);
      const up = faces.flatMap(({ outlines }) => outlines.flat().map(([, y]) => y));
      return {
        high: up.reduce((sum, y) => sum + y, 0) / up.length,
        lit: Math.max(...faces.map((face) => from.shadeOf(face))),
      };
    };
    const [upright, turned] = [stage, stage.turnedOver()];
    expect(seen(upright, 'Seat <b>').high).toBeGreaterThan(seen(upright, 'Leg').high);
    expect(seen(turned, 'Seat <b>').high).toBeLessThan(seen(turned, 'Leg').high);
    // What lies flat is lit from above, whichever of its faces that is.
    expect(seen(turned, 'Seat <b>').lit).toBe(seen(upright, 'Seat <b>').lit);
  });
});
