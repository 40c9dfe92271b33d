import type { Facet, Solid, Triple } from '@kerfbook/solids';
import { type Eye, gazeOf } from '../eye.ts';
import type { ParallelView, SeenFace, SeenPiece, Trace } from '../parallel.ts';
import { AXES, type Axis, type Scene } from '../scene.ts';
import { shadeAlong } from '../shade.ts';
import type { Outline } from '../visible-face.ts';
import { areaOf } from '../wood-grain.ts';
import { solidOf, solidsOf } from './scene-solids.ts';
import type { SeenFacet } from './seen-facet.ts';
import { viewSolids, type Way } from './solids-view.ts';

/** A parallel projection of a scene with shaped pieces; undefined when it has none. */
export function viewOfSolids(
  scene: Scene,
  eye: Eye,
  traces: readonly Trace[],
): ParallelView | undefined {
  const ways = traces.map(wayOf);
  const view = viewSolids(solidsOf(scene), eye, { facets: true, ways });
  if (view === undefined) return undefined;
  return {
    eye,
    pieces: piecesSeen(scene, view.facets, eye),
    visible: view.visible,
    hidden: view.hidden,
    bounds: view.bounds,
    traces: view.ways,
  };
}

/** Only what is seen of each piece. */
export function facesOfSolids(scene: Scene, eye: Eye): SeenPiece[] {
  return piecesSeen(scene, viewSolids(solidsOf(scene), eye, { facets: true })?.facets ?? [], eye);
}

const piecesSeen = (
  scene: Scene,
  facets: readonly (readonly SeenFacet[])[],
  eye: Eye,
): SeenPiece[] =>
  scene.pieces.map((piece, index): SeenPiece => {
    const seen = facets[index] ?? [];
    const faces = facesOf(seen, eye);
    return {
      piece,
      // A box among shaped pieces is shaded and grained as it is among boxes.
      faces:
        piece.solid === undefined ? faces.map(({ axis, outlines }) => ({ axis, outlines })) : faces,
      share: shareOf(solidOf(piece), seen, eye),
    };
  });

function wayOf({ axis, from, to }: Trace): Way {
  const end = { ...from, [axis]: to };
  return { from: [from.x, from.y, from.z], to: [end.x, end.y, end.z] };
}

/** A flat face is one; of a curved one, as much as has the same shade. */
function facesOf(seen: readonly SeenFacet[], eye: Eye): SeenFace[] {
  const groups = new Map<string, { facets: Facet[]; outlines: Outline[] }>();
  for (const { facet, outlines } of seen) {
    const { surface, curved, normal } = facet;
    const key = curved ? `${surface} ${shadeAlong(normal, eye, true)}` : `${surface}`;
    const group = groups.get(key) ?? { facets: [], outlines: [] };
    group.facets.push(facet);
    group.outlines.push(...outlines);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ facets, outlines }) => {
    const [first] = facets;
    return first === undefined ? [] : [{ axis: axisOf(first.normal), outlines, facets }];
  });
}

/** The axis that a direction runs along most. */
const axisOf = (way: Triple): Axis =>
  AXES.reduce((most, axis) =>
    Math.abs(way[AXES.indexOf(axis)] ?? 0) > Math.abs(way[AXES.indexOf(most)] ?? 0) + 1e-9
      ? axis
      : most,
  );

/** Of its surface that shows best, how much is drawn, of what of it looks towards the eye. */
function shareOf(solid: Solid, seen: readonly SeenFacet[], eye: Eye): number {
  const [ex, ey, ez] = gazeOf(eye).toEye;
  const drawn = new Map<number, number>();
  for (const { facet, outlines } of seen) {
    const area = outlines.reduce((sum, outline) => sum + Math.abs(areaOf(outline)), 0);
    drawn.set(facet.surface, (drawn.get(facet.surface) ?? 0) + area);
  }
  const own = new Map<number, number>();
  for (const facet of solid.facets) {
    const { surface, normal } = facet;
    if (!drawn.has(surface) || normal[0] * ex + normal[1] * ey + normal[2] * ez <= 0) continue;
    own.set(surface, (own.get(surface) ?? 0) + facetArea(facet));
  }
  return Math.max(0, ...[...drawn].map(([surface, area]) => area / (own.get(surface) ?? Infinity)));
}

/** mm², of a flat convex polygon. */
function facetArea({ points, normal }: Facet): number {
  const [first] = points;
  if (first === undefined) return 0;
  let twice = 0;
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length] ?? first;
    const [ax, ay, az] = [point[0] - first[0], point[1] - first[1], point[2] - first[2]];
    const [bx, by, bz] = [next[0] - first[0], next[1] - first[1], next[2] - first[2]];
    twice +=
      (ay * bz - az * by) * normal[0] +
      (az * bx - ax * bz) * normal[1] +
      (ax * by - ay * bx) * normal[2];
  }
  return Math.abs(twice) / 2;
}
