import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import type { Spot } from './picture.ts';
import { across, measureOf, nameOf, type Plate, plated, ROOM, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, line, stroke, wood } from './strokes.ts';

/** The opening of a case, as it is measured. */
export function openingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, ['opening_width', 'opening_height']);
  if (lost.length > 0) return needs('an opening', lost);
  const [wide = 0, high = 0] = ['opening_width', 'opening_height'].map((name) =>
    lengthOf(source, name),
  );
  const rim = lengthOf(source, 'case_edge') ?? wide / 30;
  const scale = Math.min((ROOM - 40) / (wide + 2 * rim), 190 / (high + 2 * rim));
  const u = (mm: number): number => mm * scale;
  const [x, y, w, h, edge] = [u(rim), u(rim), u(wide), u(high), u(rim)];
  const outer = box(0, 0, w + 2 * edge, h + 2 * edge);
  const plate: Plate = {
    wide: w + 2 * edge,
    high: h + 2 * edge,
    body: [
      stroke('kb-quiet', outer),
      stroke('kb-new', box(x, y, w, h)),
      stroke('kb-hidden', `${line([x, y], [x + w, y + h])}${line([x + w, y], [x, y + h])}`),
      ...[0.1, 0.5, 0.9].map((share) => across(x, x + w, y + h * share, 0)),
      ...[0.06, 0.94].map((share) =>
        stroke('kb-dimension', line([x + w * share, y], [x + w * share, y + h])),
      ),
    ],
    names: [
      ...nameOf(stage, 'Width, least of three:', 'opening_width', [x + w * 0.3, y + h * 0.1]),
      ...nameOf(stage, 'Height at both sides', 'opening_height', [x + w * 0.94, y + h * 0.3]),
      { words: 'Diagonals alike', spots: [[x + w * 0.7, y + h * 0.7]] },
    ],
  };
  return plated(stage, step, [plate], {
    caption: 'From the front. Where the diagonals are alike, the opening is square.',
    says: `The opening from the front: its width at the top, in the middle and at the bottom, its height at both sides, and its diagonals.`,
    drawn: ['opening_width', 'opening_height'].map((name) => measureOf(stage, step, name)),
  });
}

/** Doors in their opening, cut across level: what they cover and the gaps that they keep. */
export function gapsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, ['door_width', 'frame_thickness', 'gap', 'case_edge']);
  if (lost.length > 0) return needs('doors and their gaps', lost);
  const own = (name: string): number => lengthOf(source, name) ?? 0;
  const [frame, gap, side, over] = ['frame_thickness', 'gap', 'case_edge', 'overlay_used'].map(
    own,
  ) as [number, number, number, number];
  const doors = source.named('doors')?.value;
  const two = doors?.kind === 'number' && doors.number === 2;
  const inset = over === 0;
  const reach = Math.max(frame * 2.2, over * 2);
  const deep = frame * 1.6;
  const scale = Math.min(86 / (side + reach), 90 / (frame + deep));
  const u = (mm: number): number => mm * scale;
  const print = stage.options.print === true;
  const material = stage.plan.parts.parts.find(({ name }) => /stile/i.test(name))?.material;
  // The case lies above, doors below it: as one looks down on them, standing in front.
  const front = u(deep);
  const atCase = (): Plate => {
    const from = inset ? u(side + gap) : u(side - over);
    const wide = u(side + reach);
    const y0 = inset ? front - u(frame) : front;
    const bottom = inset ? front : front + u(frame);
    return {
      wide,
      high: bottom + 14,
      body: [
        stroke('kb-new', box(0, 0, u(side), front)),
        wood(material, box(from, y0, wide - from, u(frame)), print, 5),
        ...(inset
          ? [across(u(side), from, bottom + 9, -9)]
          : [across(from, u(side), bottom + 9, -9)]),
      ],
      names: [
        { words: 'Case', spots: [[u(side) * 0.5, front * 0.3]] },
        { words: 'Door', spots: [[wide * 0.85, y0 + u(frame) * 0.5]] },
        inset
          ? { words: `Gap ${said(stage, gap)}`, spots: [[(u(side) + from) / 2, bottom + 9]] }
          : { words: `Covers ${said(stage, over)}`, spots: [[(from + u(side)) / 2, bottom + 9]] },
        ...(inset || side - over <= 0
          ? []
          : [{ words: `Seen ${said(stage, side - over)}`, spots: [[from / 2, front] as Spot] }]),
      ],
    };
  };
  const between = (): Plate => {
    const leaf = u(reach);
    const right = leaf + Math.max(u(gap), 1);
    const high = u(frame);
    return {
      wide: right + leaf,
      high: high + 14,
      body: [
        wood(material, box(0, 0, leaf, high), print, 5),
        wood(material, box(right, 0, leaf, high), print, 5),
        across(leaf, right, high + 9, -9),
      ],
      names: [
        { words: 'Left door', spots: [[leaf * 0.4, high * 0.5]] },
        { words: `Gap ${said(stage, gap)}`, spots: [[(leaf + right) / 2, high + 9]] },
        { words: 'Right door', spots: [[right + leaf * 0.6, high * 0.5]] },
      ],
    };
  };
  return plated(stage, step, two ? [atCase(), between()] : [atCase()], {
    says: inset
      ? `The door lies within its opening, with ${said(stage, gap)} between it and the case.`
      : `The door lies in front of the case and covers ${said(stage, over)} of its edge.`,
    caption: `Cut across level, seen from above, the front below${two ? ': at the case, and where two doors meet' : ''}.`,
    drawn: ['gap', 'overlay_used'].map((name) => measureOf(stage, step, name)),
  });
}
