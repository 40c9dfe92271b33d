import {
  areaBeside,
  boxSolid,
  type Facet,
  type Measures,
  measured,
  movedTo,
  type Solid,
  type Triple,
} from '@kerfbook/solids';
import { alongAxes, cornerOf, type PlacedPart } from '@kerfbook/wood';
import { joinedPiece, type MadePiece, madePiece, standingPiece } from './made.ts';
import { type BlockOrSolid, type FormedPart, isShaped, placementOf } from './standing.ts';

/** What a finished piece measures, mm³ and mm². */
export interface FinishedPiece {
  /** Of its wood. */
  readonly volume: number;
  /** Of all its faces, less what its joints cut and hide: what finish goes on. */
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
 * Its joints are taken off: walls of mortises, tenons and faces that lie against what it is joined to get no finish.
 */
export function finishedPieces(part: FormedPart, placing?: PlacedPart): readonly FinishedPiece[] {
  return Array.from({ length: part.count }, (_, copy): FinishedPiece => {
    const isJoined = isCut(part, copy) || (part.joinedTo?.[copy]?.length ?? 0) > 0;
    if (!isShaped(part) && !isJoined) return boxPiece(part, placing, copy);
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

const isCut = ({ cuts }: FormedPart, copy: number): boolean => (cuts?.[copy]?.length ?? 0) > 0;

function ownMeasures(
  part: FormedPart,
  placing: PlacedPart | undefined,
  copy: number,
): OwnMeasures | undefined {
  const made = madePiece(part, placing, copy, String);
  if (made === undefined) return undefined;
  const own = measuresOf(made);
  if (placing === undefined) return own;
  const cuts = part.cuts?.[copy] ?? [];
  const joined = isCut(part, copy) ? joinedPiece(part, placing, copy, cuts, String) : undefined;
  const less = joined === undefined ? own : lessCut(own, made.solid, joined.solid);
  const others = part.joinedTo?.[copy] ?? [];
  const solid = joined?.solid ?? made.solid;
  if (solid === made.solid && others.length === 0) return own;
  const standing = standingPiece(solid, placementOf(part, placing, copy));
  return { ...less, area: own.area + finishedArea(made.solid, standing, others) };
}

/** By formula where one tells it, else by the facets. */
function measuresOf({ solid, exact }: MadePiece): OwnMeasures {
  const before = known.get(solid);
  if (before !== undefined) return before;
  const facets = facetMeasures(solid);
  const own: OwnMeasures = {
    volume: exact?.volume ?? facets.volume,
    area: exact?.area ?? facets.area,
    centroid: exact?.centroid ?? facets.centroid,
  };
  known.set(solid, own);
  return own;
}

const byFacets = new WeakMap<Solid, Measures>();

function facetMeasures(solid: Solid): Measures {
  const before = byFacets.get(solid);
  if (before !== undefined) return before;
  const measures = measured(solid);
  byFacets.set(solid, measures);
  return measures;
}

/** What is left by formula of a piece of which facets tell what was cut off. */
function lessCut(own: OwnMeasures, before: Solid, after: Solid): OwnMeasures {
  const [whole, left] = [facetMeasures(before), facetMeasures(after)];
  const volume = own.volume + left.volume - whole.volume;
  const [x, y, z] = ([0, 1, 2] as const).map(
    (axis) =>
      (own.volume * own.centroid[axis] +
        left.volume * left.centroid[axis] -
        whole.volume * whole.centroid[axis]) /
      volume,
  ) as [number, number, number];
  return { ...own, volume, centroid: [x, y, z] };
}

/** What finish goes on less than on the whole piece (so it is 0 or less): faces that were there before its joints. */
function finishedArea(before: Solid, standing: Solid, others: readonly BlockOrSolid[]): number {
  const surfaces = new Set(before.facets.map(({ surface }) => surface));
  const faces = standing.facets.filter(({ surface }: Facet) => surfaces.has(surface));
  const bodies = others.flatMap(({ low, high, solid }) => (solid ?? boxSolid(low, high)).cells);
  return areaBeside(faces, bodies) - facetMeasures(before).area;
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
