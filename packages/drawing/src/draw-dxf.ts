import { jointDetails } from './details/detail.ts';
import { type DrawOptions, drawSheets, notPlaced } from './draw.ts';
import { pictureOf } from './draw-whole.ts';
import { toDxf } from './dxf/to-dxf.ts';
import { readParts } from './parts.ts';
import type { PartProblem, PartsSource } from './parts-source.ts';
import { buildScene } from './scene.ts';
import { partsDrawn } from './side-by-side.ts';

/** What of {@link DrawOptions} a DXF file can show. */
export type DrawDxfOptions = Pick<
  DrawOptions,
  'views' | 'format' | 'movement' | 'whole' | 'exploded'
>;

/** Joints are cut open at a scale for which an A4 page has room, mm: half its width, and all of it. */
const ROOM = { width: 89, height: 100 };
const WIDE = { width: 184, height: 100 };

/** What came of drawing a parts table for a DXF file. */
export interface DxfDrawing {
  /** The whole file as text, ASCII; left out where there is nothing to draw. */
  readonly dxf?: string;
  /** Rows and positions that could not be read, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** Why there is nothing to draw, or nothing but parts side by side, in a sentence. */
  readonly says?: string;
}

/** Draws a workbook's parts table for a drafting program. Never throws for what a cell holds. */
export function drawDxf(source: PartsSource, options: DrawDxfOptions): DxfDrawing {
  const reading = readParts(source);
  const scene = buildScene(partsDrawn(reading.parts));
  const problems = [...reading.problems, ...scene.problems];
  const { whole, exploded } = options;
  const pictures = [
    whole && pictureOf(scene, whole),
    exploded && pictureOf(scene, { ...exploded, exploded: true }),
  ].filter((picture) => picture !== undefined);
  const { units } = source;
  const { format } = options;
  const details =
    reading.joints === undefined
      ? []
      : jointDetails(scene.pieces, reading.joints.work, { room: ROOM, wide: WIDE, units, format });
  const dxf = toDxf({ sheets: drawSheets(scene, options), pictures, details }, units);
  const says = notPlaced(reading, scene);
  return {
    ...(dxf === undefined ? {} : { dxf }),
    problems,
    ...(says === undefined ? {} : { says }),
  };
}
