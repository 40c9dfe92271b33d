import type { Eye } from '../eye.ts';
import type { ParallelView, SeenPiece, Trace } from '../parallel.ts';
import type { Scene } from '../scene.ts';
import { FacesOfPieces } from './faces-of-pieces.ts';
import { solidsOf } from './scene-solids.ts';
import type { SeenFacet } from './seen-facet.ts';
import { viewSolids, type Way } from './solids-view.ts';

/** A parallel projection of a scene with shaped pieces; undefined when it has none. */
export function viewOfSolids(
  scene: Scene,
  eye: Eye,
  traces: readonly Trace[],
): ParallelView | undefined {
  const ways = traces.map(wayOf);
  const view = viewSolids(solidsOf(scene), eye, { facets: true, hidden: false, ways });
  if (view === undefined) return undefined;
  return {
    eye,
    pieces: piecesSeen(scene, view.facets, eye),
    visible: view.visible,
    bounds: view.bounds,
    traces: view.ways,
  };
}

/** Only what is seen of each piece. */
export function facesOfSolids(scene: Scene, eye: Eye): SeenPiece[] {
  return piecesSeen(
    scene,
    viewSolids(solidsOf(scene), eye, { facets: true, hidden: false })?.facets ?? [],
    eye,
  );
}

function piecesSeen(
  scene: Scene,
  facets: readonly (readonly SeenFacet[])[],
  eye: Eye,
): SeenPiece[] {
  const faces = new FacesOfPieces(eye);
  return scene.pieces.map((piece, index) => faces.of(piece, facets[index] ?? []));
}

function wayOf({ axis, from, to }: Trace): Way {
  const end = { ...from, [axis]: to };
  return { from: [from.x, from.y, from.z], to: [end.x, end.y, end.z] };
}
