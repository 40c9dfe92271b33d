import type { OpenWorkbook } from '@kerfbook/workbook';
import { chooseCallouts } from './callouts.ts';
import { type Clashes, findClashes } from './clashes.ts';
import { chooseDimensions } from './dimensions.ts';
import { drawWhole, type WholeOptions } from './draw-whole.ts';
import type { Movement } from './movement.ts';
import { type PartsReading, readParts } from './parts.ts';
import type { PartProblem, PartsSource } from './parts-source.ts';
import { type Box, buildScene, type Scene } from './scene.ts';
import { hasSolids } from './shapes/scene-solids.ts';
import { composePages, composeSheets, PANEL, type Page, type Panel, type Sheet } from './sheet.ts';
import { partsDrawn } from './side-by-side.ts';
import { sheetToSvg } from './svg.ts';
import type { Format } from './units.ts';
import { type Projection, project, type View } from './views.ts';

/** What {@link drawViews} is to draw, and how. */
export interface DrawOptions {
  /** In the order they are shown: a size that fits several views is written in the first. */
  readonly views: readonly View[];
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** The panel the drawing is to be read in, in pixels; 420 by 420 where left out. */
  readonly panel?: Panel;
  /**
   * Room for each view on a printed page, mm: the SVGs then have a size of their own, at a standard
   * scale that they name, and `panel` is not used.
   */
  readonly page?: Page;
  /** Which sizes are written: all that are chosen, or in a small picture those over all; all where left out. */
  readonly sizes?: 'all' | 'overall';
  /** What the seasons do, drawn in the view from above. */
  readonly movement?: Movement;
  /** The whole in parallel projection, shaded; see `drawWhole`. */
  readonly whole?: WholeOptions;
  /** The same exploded; left out where not wanted. */
  readonly exploded?: WholeOptions;
  /** True: where no part has a place, they are drawn side by side; see `partsDrawn`. */
  readonly sideBySide?: boolean;
  /** True: parts that run into each other or float are looked for. */
  readonly clashes?: boolean;
  /** True: each SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
}

/** What came of drawing a parts table. */
export interface Drawing {
  /** The views asked for; none of them where there is nothing to draw. */
  readonly svg: Readonly<Partial<Record<View, string>>>;
  /** SVG in parallel projection, where asked for. */
  readonly whole?: string;
  /** SVG of the exploded pieces, where asked for. */
  readonly exploded?: string;
  /** Where asked for. */
  readonly clashes?: Clashes;
  /** Rows and positions that could not be read, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** Around everything drawn, mm; left out where the parts only lie side by side. */
  readonly extents?: Box;
  /** Why there is nothing to draw, or nothing but parts side by side, in a sentence. */
  readonly says?: string;
}

/** Draws a workbook's parts table. Never throws for what a cell holds: that becomes a problem. */
export function drawViews(source: PartsSource, options: DrawOptions): Drawing {
  const reading = readParts(source);
  const { parts } = reading;
  const scene = buildScene(options.sideBySide === true ? partsDrawn(parts) : parts);
  const problems = [...reading.problems, ...scene.problems];
  const says = notPlaced(reading, scene);
  const { extents } = scene;
  if (extents === undefined) return { svg: {}, problems, ...(says === undefined ? {} : { says }) };
  const svg = drawFlat(scene, source.units, options);
  const drawn = { svg, ...more(scene, options), problems };
  return says === undefined ? { ...drawn, extents } : { ...drawn, says };
}

/** The flat views of a scene, as SVG; none of them where there is nothing in it. */
export function drawFlat(
  scene: Scene,
  units: PartsSource['units'],
  options: SheetOptions & Pick<DrawOptions, 'standalone'>,
): Drawing['svg'] {
  const { format, standalone = false } = options;
  const svg: Partial<Record<View, string>> = {};
  for (const sheet of drawSheets(scene, options, units)) {
    svg[sheet.projection.view] = sheetToSvg(sheet, { units, format, standalone });
  }
  return svg;
}

type More = Pick<Drawing, 'whole' | 'exploded' | 'clashes'>;

function more(scene: Scene, options: DrawOptions): More {
  const { format, panel, standalone, whole, exploded, clashes } = options;
  const common = {
    format,
    ...(panel === undefined ? {} : { panel }),
    ...(standalone === undefined ? {} : { standalone }),
  };
  const picture = whole && drawWhole(scene, { ...common, ...whole });
  const apart = exploded && drawWhole(scene, { ...common, exploded: true, ...exploded });
  return {
    ...(picture === undefined ? {} : { whole: picture }),
    ...(apart === undefined ? {} : { exploded: apart }),
    ...(clashes === true ? { clashes: findClashes(scene, { format }) } : {}),
  };
}

/** What of {@link DrawOptions} decides which views there are and what is written in them. */
export type SheetOptions = Pick<
  DrawOptions,
  'views' | 'format' | 'panel' | 'page' | 'movement' | 'sizes'
>;

/**
 * The views of a scene with their dimensions laid out, for an output other than SVG.
 * @param units which scales a printed page may have
 */
export function drawSheets(
  scene: Scene,
  { views, format, panel = PANEL, page, movement, sizes = 'all' }: SheetOptions,
  units: OpenWorkbook['units'] = 'metric',
): Sheet[] {
  const projections = [...new Set(views)]
    .map((view) => project(scene, view))
    .filter((projection): projection is Projection => projection !== undefined);
  if (projections.length === 0) return [];
  // Sizes over what lies side by side would be those of nothing.
  const chosen = chooseDimensions(scene, isLaidOut(scene) ? [] : projections);
  const dimensions =
    sizes === 'all'
      ? chosen
      : new Map([...chosen].map(([view, all]) => [view, all.filter(({ must }) => must)] as const));
  const input = {
    projections,
    dimensions,
    format,
    ...(movement === undefined ? {} : { movement }),
    ...(sizes === 'all' && hasSolids(scene) ? { callouts: chooseCallouts(projections) } : {}),
  };
  return page === undefined ? composeSheets({ ...input, panel }) : composePages(input, page, units);
}

/** Why a workbook has no drawing, or only its parts side by side; undefined where they are in their places. */
export function notPlaced(reading: PartsReading, scene: Scene): string | undefined {
  if (!reading.found) return 'This workbook has no parts table, so there is nothing to draw yet.';
  if (isLaidOut(scene)) return `The parts lie side by side: none has a place yet. ${HOW_TO_PLACE}`;
  if (scene.extents !== undefined) return undefined;
  if (scene.unplaced.length > 0 && reading.problems.length === 0) {
    return `No part has a place yet. ${HOW_TO_PLACE}`;
  }
  return reading.problems.length > 0
    ? 'No part can be drawn until the parts table is put right.'
    : 'The parts table has no pieces yet; name a part and give it a count and sizes.';
}

const HOW_TO_PLACE =
  'For a top on four legs, write "four corners of Top" as the place of Leg and "on Leg" as the place of Top, with your names for them. What stands on the floor by itself takes 0 as its x.';

/** Whether its pieces lie side by side since none has a place; see `partsDrawn`. */
const isLaidOut = ({ pieces }: Scene): boolean => pieces.some(({ part }) => part.aside === true);
