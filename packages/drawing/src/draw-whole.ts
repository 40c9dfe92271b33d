import { chooseEye } from './choose-eye.ts';
import { type Exploded, explode } from './explode.ts';
import type { Eye } from './eye.ts';
import { type ParallelView, parallelView } from './parallel.ts';
import { parallelToSvg, type Reach } from './parallel-svg.ts';
import { readParts } from './parts.ts';
import type { PartsSource } from './parts-source.ts';
import { buildScene, type Scene } from './scene.ts';
import type { Panel } from './sheet.ts';
import { bookFormat, type Format } from './units.ts';

/** How the whole is looked at and how far it is moved apart. */
export interface WholeOptions {
  /** Where it is looked at from; the eye that shows most parts where left out, see `chooseEye`. */
  readonly eye?: Eye;
  /** How far pieces that meet are moved apart in the exploded view, mm; see `explode`. */
  readonly apart?: number;
  /** True: the scale is such that it fits however it is turned about the upright, so that it holds meanwhile. */
  readonly steady?: boolean;
  /** True: woods are tints and all lines black on white; else their colours go by the page's scheme. */
  readonly print?: boolean;
}

/** How {@link drawWhole} draws. */
export interface DrawWholeOptions extends WholeOptions {
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** True: the pieces are moved apart. */
  readonly exploded?: boolean;
  /** The panel it is to be read in, in pixels; 420 by 420 where left out. */
  readonly panel?: Panel;
  /** True: the SVG carries its styles, for a file of its own. */
  readonly standalone?: boolean;
  /** True: its caption says which parts cannot be seen from there. */
  readonly unseen?: boolean;
}

/**
 * A scene in parallel projection as SVG, whole or moved apart; undefined where it has no pieces.
 * Cheap enough to be drawn anew at every step of a drag.
 * @throws RangeError when the eye's angles are none; see `gazeOf`
 */
export function drawWhole(scene: Scene, options: DrawWholeOptions): string | undefined {
  const { format, panel, standalone, print, unseen = false, steady = false } = options;
  const picture = pictureOf(scene, options);
  if (picture === undefined) return undefined;
  const { name, view, shown } = picture;
  const reach = steady ? { reach: reachOf(shown, view.eye) } : {};
  return parallelToSvg(view, {
    name,
    format,
    unseen,
    ...(panel === undefined ? {} : { panel }),
    ...(standalone === undefined ? {} : { standalone }),
    ...(print === undefined ? {} : { print }),
    ...reach,
  });
}

interface WholePicture {
  readonly name: string;
  readonly view: ParallelView;
  /** The scene as it is shown. */
  readonly shown: Scene;
}

/** What `drawWhole` draws, for an output other than SVG. */
export function pictureOf(
  scene: Scene,
  { eye, exploded = false, apart }: Pick<DrawWholeOptions, 'eye' | 'exploded' | 'apart'>,
): WholePicture | undefined {
  const { scene: shown, traces } = exploded ? apartOnce(scene, apart) : { scene, traces: [] };
  const view = parallelView(shown, eye ?? chooseEye(shown), traces);
  if (view === undefined) return undefined;
  return { name: exploded ? 'Exploded' : '3D', view, shown };
}

const known = new WeakMap<Scene, Exploded>();

/** Moved apart once for all steps of a turn. */
function apartOnce(scene: Scene, apart: number | undefined): Exploded {
  if (apart !== undefined) return explode(scene, apart);
  const before = known.get(scene) ?? explode(scene);
  known.set(scene, before);
  return before;
}

/** Half of what a scene takes on the paper at the most while it is turned about the upright. */
function reachOf({ extents }: Scene, { elevation }: Eye): Reach {
  if (extents === undefined) return { across: 0, up: 0 };
  const { from, to } = extents;
  const across = Math.hypot(to.x - from.x, to.y - from.y) / 2;
  const raised = (Math.abs(elevation) * Math.PI) / 180;
  return { across, up: ((to.z - from.z) / 2) * Math.cos(raised) + across * Math.sin(raised) };
}

/** How {@link shadedForPrint} draws. */
export type ShadedForPrintOptions = Pick<
  DrawWholeOptions,
  'eye' | 'exploded' | 'format' | 'panel' | 'standalone'
>;

/**
 * The furniture of a parts table in 3D for a printed page: woods as light tints, grain, and black
 * lines. As wide to high as `panel`; give it a width in mm where it is put. Undefined where nothing
 * has a place. With `standalone` it carries its styles and colours, for a file of its own.
 * @throws RangeError when the eye's angles are none; see `gazeOf`
 */
export function shadedForPrint(
  source: PartsSource,
  options: ShadedForPrintOptions,
): string | undefined {
  return drawWhole(buildScene(readParts(source).parts), { ...options, print: true });
}

/** How wide and high {@link drawingForFiles} draws, in pixels: a page across, but for its edges. */
export const FILE_PANEL = { width: 940, height: 640 } as const;

/**
 * The furniture as {@link shadedForPrint} draws it, to go along in a file of another program: an SVG that carries its
 * styles, as wide to high as `FILE_PANEL`. Undefined where nothing has a place, and where a row of the parts table or a
 * place could not be read: beside a drawing that lacks something nobody would say so there.
 */
export function drawingForFiles(
  source: PartsSource & Parameters<typeof bookFormat>[0],
): string | undefined {
  const reading = readParts(source);
  const scene = buildScene(reading.parts);
  if (reading.problems.length + scene.problems.length > 0) return undefined;
  const format = bookFormat(source);
  return drawWhole(scene, { format, panel: FILE_PANEL, print: true, standalone: true });
}
