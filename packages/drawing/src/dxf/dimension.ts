import type { PlacedDimension } from '../layout.ts';
import { arrowsOf, linesOf } from '../layout.ts';
import { PAPER } from '../paper.ts';
import { arrowhead, entity, lines, placed, type Space, writing } from './entities.ts';
import { formattedText, point, real, type Tag, text, whole } from './tags.ts';

/** Turned to a direction, with a block of its own, its text where the drawing has it. */
const KIND = 0 + 32 + 128;

/**
 * A size as a dimension proper: what it measures and where, and the text as the workbook writes it.
 * @param block name of the block that shows it
 */
export function dimensionEntity(one: PlacedDimension, block: string, space: Space): Tag[] {
  const { dimension, line, label } = one;
  const { from, to, fromAnchor, toAnchor, side } = dimension;
  const level = side === 'below';
  const spot = (along: number, off: number): [number, number] =>
    level ? placed(space.placement, along, off) : placed(space.placement, off, along);
  const middle = placed(
    space.placement,
    (label.box.left + label.box.right) / 2,
    (label.box.bottom + label.box.top) / 2,
  );
  return [
    ...entity('DIMENSION', 'dimension', space),
    text(100, 'AcDbDimension'),
    text(2, block),
    ...point(10, ...spot(to, line)),
    ...point(11, ...middle),
    whole(70, KIND),
    text(1, formattedText(one.text)),
    real(42, (to - from) * space.placement.scale),
    text(3, 'Standard'),
    text(100, 'AcDbAlignedDimension'),
    ...point(13, ...spot(from, side === 'inside' ? line : fromAnchor)),
    ...point(14, ...spot(to, side === 'inside' ? line : toAnchor)),
    real(50, level ? 0 : 90),
    text(100, 'AcDbRotatedDimension'),
  ];
}

/** What the block of a dimension shows, for programs that do not draw dimensions themselves. */
export function dimensionPicture(one: PlacedDimension, unit: number, space: Space): Tag[] {
  const { x, y, upright } = one.label;
  return [
    ...lines(linesOf(one, unit), 'dimension', space),
    ...arrowsOf(one).flatMap((arrow) => arrowhead(arrow, unit, 'dimension', space)),
    ...writing({ text: one.text, x, y, height: PAPER.text * unit, upright }, 'dimension', space),
  ];
}
