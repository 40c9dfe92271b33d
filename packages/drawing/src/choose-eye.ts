import { DEFAULT_EYE, type Eye } from './eye.ts';
import { facesSeen, type SeenPiece } from './parallel.ts';
import type { Part } from './parts.ts';
import { AXES, type Scene } from './scene.ts';
import { areaOf } from './wood-grain.ts';

/** A part is well in view when so much of one of its faces is drawn, of the face's own area. */
const ENOUGH = 0.3;
/** What an eye has to show more for each place further down the list. */
const PLACE = 0.02;
/** What it counts that all pieces of a part are in view, when one in view counts 1. */
const COPIES = 0.5;
/** More pieces than this, and fewer eyes are tried; more than that, and none is. */
const MANY = 80;
const TOO_MANY = 300;

/** From the right front, then more from the front or the end, or from the left; high before low. */
const AZIMUTHS = [40, 55, 30, -40];
const ELEVATIONS = [25, 20, 16, 13, 10];

const EYES: readonly Eye[] = ELEVATIONS.flatMap((elevation) =>
  AZIMUTHS.map((azimuth) => ({ azimuth, elevation })),
);

/**
 * The eye that shows most parts of a scene, of a few that a thing is usually looked at from: always
 * the same for the same scene. A table seen from high up is a top; its aprons want a low eye.
 */
export function chooseEye(scene: Scene): Eye {
  const { length } = scene.pieces;
  if (length === 0 || length > TOO_MANY) return DEFAULT_EYE;
  const eyes = length > MANY ? EYES.filter(({ azimuth }) => azimuth === AZIMUTHS[0]) : EYES;
  let best = DEFAULT_EYE;
  let most = -Infinity;
  // All parts with all of their pieces: no eye further down the list shows more than that.
  const all = new Set(scene.pieces.map(({ part }) => part)).size * (1 + COPIES);
  for (const [place, eye] of eyes.entries()) {
    if (all - place * PLACE <= most) break;
    const shown = shownAt(scene, eye) - place * PLACE;
    if (shown > most) {
      most = shown;
      best = eye;
    }
  }
  return best;
}

/** How many parts an eye shows; one of which little can be seen counts as a share of one. */
function shownAt(scene: Scene, eye: Eye): number {
  const shares = new Map<Part, { best: number; sum: number; pieces: number }>();
  for (const seen of facesSeen(scene, eye)) {
    const share = Math.min(1, shareSeen(seen) / ENOUGH);
    const { part } = seen.piece;
    const { best, sum, pieces } = shares.get(part) ?? { best: 0, sum: 0, pieces: 0 };
    shares.set(part, { best: Math.max(best, share), sum: sum + share, pieces: pieces + 1 });
  }
  let shown = 0;
  for (const { best, sum, pieces } of shares.values()) shown += best + (COPIES * sum) / pieces;
  return shown;
}

/**
 * How much of a piece can be seen: of its face that shows best, the share of the face's own area
 * that is drawn. 0 for a piece that is hidden, 1 for a face looked at square on and whole.
 */
export function shareSeen({ piece, faces, share }: SeenPiece): number {
  if (share !== undefined) return share;
  let best = 0;
  for (const { axis, outlines } of faces) {
    const [one = 0, other = 0] = AXES.filter((side) => side !== axis).map(
      (side) => piece.to[side] - piece.from[side],
    );
    const drawn = outlines.reduce((sum, outline) => sum + Math.abs(areaOf(outline)), 0);
    if (one * other > 0) best = Math.max(best, drawn / (one * other));
  }
  return best;
}
