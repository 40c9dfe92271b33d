import { explode } from './explode.ts';
import { DEFAULT_EYE, type Eye } from './eye.ts';
import { type ParallelView, parallelView } from './parallel.ts';
import { parallelToSvg } from './parallel-svg.ts';
import { AXES, type Scene } from './scene.ts';
import type { Panel } from './sheet.ts';
import type { Format } from './units.ts';

/** How the whole is looked at and how far it is moved apart. */
export interface WholeOptions {
  /** Where it is looked at from; `DEFAULT_EYE` where left out. */
  readonly eye?: Eye;
  /** How far pieces that meet are moved apart in the exploded view, mm; see `explode`. */
  readonly apart?: number;
  /** True: the scale is such that the whole fits however it is turned, so that it holds while it is dragged. */
  readonly steady?: boolean;
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
}

/**
 * A scene in parallel projection as SVG, whole or moved apart; undefined where it has no pieces.
 * Cheap enough to be drawn anew at every step of a drag.
 * @throws RangeError when the eye's angles are none; see `gazeOf`
 */
export function drawWhole(scene: Scene, options: DrawWholeOptions): string | undefined {
  const { format, panel, standalone, steady = false } = options;
  const picture = pictureOf(scene, options);
  if (picture === undefined) return undefined;
  const { name, view, shown } = picture;
  const reach = steady ? { reach: halfDiagonal(shown) } : {};
  return parallelToSvg(view, {
    name,
    format,
    ...(panel === undefined ? {} : { panel }),
    ...(standalone === undefined ? {} : { standalone }),
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
  {
    eye = DEFAULT_EYE,
    exploded = false,
    apart,
  }: Pick<DrawWholeOptions, 'eye' | 'exploded' | 'apart'>,
): WholePicture | undefined {
  const { scene: shown, traces } = exploded ? explode(scene, apart) : { scene, traces: [] };
  const view = parallelView(shown, eye, traces);
  if (view === undefined) return undefined;
  return { name: exploded ? 'Moved apart' : 'The whole', view, shown };
}

function halfDiagonal({ extents }: Scene): number {
  if (extents === undefined) return 0;
  return Math.hypot(...AXES.map((axis) => extents.to[axis] - extents.from[axis])) / 2;
}
