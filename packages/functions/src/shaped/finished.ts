import { measured, movedTo, type Solid, type Triple } from '@kerfbook/solids';
import { alongAxes, cornerOf, type PlacedPart } from '@kerfbook/wood';
import { madePiece } from './made.ts';
import { type FormedPart, isShaped, placementOf } from './standing.ts';

/** What a finished piece measures, mm³ and mm². */
export interface FinishedPiece {
  /** Of its wood. */
  readonly volume: number;
  /** Of all its faces: what finish goes on. */
  readonly area: number;
  /** Its middle by weight where it stands, mm; left out where it has no place. */
  readonly center?: Triple;
}

interface OwnMeasures {
  readonly volume: number;
  readonly area: number;
  readonly centroid: Triple;
}

const known = new WeakMap<Solid, OwnMeasures>();

/**
 * What each piece of a part measures when it is finished: by formula where one tells it, else as its facets have it.
 * Cuts for joints are no part of it.
 */
export function finishedPieces(part: FormedPart, placing?: PlacedPart): readonly FinishedPiece[] {
  return Array.from({ length: part.count }, (_, copy): FinishedPiece => {
    if (!isShaped(part)) return boxPiece(part, placing, copy);
    const own = ownMeasures(part, placing, copy);
    if (own === undefined) return boxPiece(part, placing, copy);
    const { volume, area, centroid } = own;
    if (placing === undefined) return { volume, area };
    return { volume, area, center: movedTo(placementOf(part, placing, copy), centroid) };
  });
}

function boxPiece(part: FormedPart, placing: PlacedPart | undefined, copy: number): FinishedPiece {
  const { length: l, width: w, thickness: t } = part;
  const own = { volume: l * w * t, area: 2 * (l * w + l * t + w * t) };
  if (placing === undefined) return own;
  const [x, y, z] = cornerOf(placing, copy);
  const [dx, dy, dz] = alongAxes(placing.turn, part);
  return { ...own, center: [x + dx / 2, y + dy / 2, z + dz / 2] };
}

function ownMeasures(
  part: FormedPart,
  placing: PlacedPart | undefined,
  copy: number,
): OwnMeasures | undefined {
  const made = madePiece(part, placing, copy, String);
  if (made === undefined) return undefined;
  const { solid, exact } = made;
  const before = known.get(solid);
  if (before !== undefined) return before;
  const facets = measured(solid);
  const own: OwnMeasures = {
    volume: exact?.volume ?? facets.volume,
    area: exact?.area ?? facets.area,
    centroid: exact?.centroid ?? facets.centroid,
  };
  known.set(solid, own);
  return own;
}

/** What a whole of parts measures. */
export interface FinishedWhole {
  /** Of all pieces, mm³. */
  readonly volume: number;
  /** Of all faces of all pieces, mm². */
  readonly area: number;
  /** The middle by weight of what has a place; left out where nothing has. */
  readonly center?: Triple;
}

/**
 * What parts measure together.
 * @param weightOf weighs a volume of a part's wood; all of one wood where left out
 */
export function finishedWhole<T extends FormedPart>(
  parts: readonly { readonly part: T; readonly placing?: PlacedPart | undefined }[],
  weightOf: (part: T, volume: number) => number = (_, volume) => volume,
): FinishedWhole {
  let [volume, area, weight] = [0, 0, 0];
  let moment: Triple = [0, 0, 0];
  for (const { part, placing } of parts) {
    for (const piece of finishedPieces(part, placing)) {
      volume += piece.volume;
      area += piece.area;
      if (piece.center === undefined) continue;
      const own = weightOf(part, piece.volume);
      const [x, y, z] = piece.center;
      weight += own;
      moment = [moment[0] + own * x, moment[1] + own * y, moment[2] + own * z];
    }
  }
  if (!(weight > 0)) return { volume, area };
  const [x, y, z] = moment;
  return { volume, area, center: [x / weight, y / weight, z / weight] };
}
