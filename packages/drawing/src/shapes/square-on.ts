import type { Triple } from '@kerfbook/solids';
import { type Eye, gazeOf } from '../eye.ts';
import type { Scene } from '../scene.ts';
import type { Projection, View, ViewPiece } from '../views.ts';
import { solidOf, solidsOf } from './scene-solids.ts';
import { silhouetteOf } from './silhouette.ts';
import { viewSolids } from './solids-view.ts';

/** Where each of the three views is looked at from. */
export const SQUARE_ON: Readonly<Record<View, Eye>> = {
  plan: { azimuth: 0, elevation: 90 },
  front: { azimuth: 0, elevation: 0 },
  end: { azimuth: 90, elevation: 0 },
};

/** A view square on of a scene with shaped pieces; undefined when it has none. */
export function projectSolids(scene: Scene, view: View): Projection | undefined {
  const eye = SQUARE_ON[view];
  const drawn = viewSolids(solidsOf(scene), eye, { backs: true });
  if (drawn === undefined) return undefined;
  const gaze = gazeOf(eye);
  const pieces = scene.pieces.map((piece): ViewPiece => {
    const solid = solidOf(piece);
    const outlines = silhouetteOf(solid, gaze);
    const [near, far] = depthsOf(
      solid.facets.flatMap(({ points }) => points),
      gaze.toEye,
    );
    return {
      piece,
      ...around(outlines),
      near,
      far,
      ...(piece.solid === undefined ? {} : { outlines }),
    };
  });
  return {
    view,
    pieces: pieces.sort((a, b) => b.near - a.near),
    visible: drawn.visible,
    hidden: drawn.hidden,
    bounds: drawn.bounds,
  };
}

/** The least and the most of how far points are away from the eye. */
function depthsOf(points: readonly Triple[], [x, y, z]: Triple): readonly [number, number] {
  let [near, far] = [Infinity, -Infinity];
  for (const point of points) {
    const depth = -(point[0] * x + point[1] * y + point[2] * z);
    near = Math.min(near, depth);
    far = Math.max(far, depth);
  }
  return [near, far];
}

function around(
  outlines: ViewPiece['outlines'] = [],
): Pick<ViewPiece, 'left' | 'right' | 'bottom' | 'top'> {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of outlines.flat()) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  }
  return { left, right, bottom, top };
}
