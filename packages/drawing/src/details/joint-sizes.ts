import { movedTo, type Triple } from '@kerfbook/solids';
import type { Dimension } from '../dimensions.ts';
import type { Span } from '../spans.ts';
import type { Rectangle } from '../views.ts';
import { boreOf } from './bores.ts';
import { boundsOf, woodOn } from './cut-faces.ts';
import type { Member } from './joint-places.ts';
import { onPaper } from './section-plane.ts';
import { type Cross, type Shown, Sizes, shownCuts, spanOf } from './sizes.ts';

/** The sizes that a maker cuts a joint by, as its section shows them. */
export function jointSizes(cross: Cross): readonly Dimension[] {
  const { place, plane, a, b } = cross;
  const sizes = new Sizes(cross);
  const mine = shownCuts(place.a, plane);
  const its = place.b === undefined ? [] : shownCuts(place.b, plane);
  const tenon = mine.find(({ of }) => of.cut.kind === 'tenon');
  if (tenon !== undefined) tenonSizes(sizes, cross, tenon, mine, its);
  else if (place.joint.kind === 'finger joint' || place.joint.kind === 'dovetails') {
    rowSizes(sizes, cross, mine);
  } else if ([...mine, ...its].some(({ of }) => isSunk(of.cut.kind))) {
    for (const [shown, face, member, isInHost] of [
      [mine, a, place.a, plane.host === 'a'],
      [its, b, place.b, plane.host === 'b'],
    ] as const) {
      if (face !== undefined && member !== undefined) {
        holeSizes(sizes, cross, shown, member, isInHost);
      }
    }
  } else channelSizes(sizes, cross, mine, its);
  return sizes.all;
}

const isSunk = (kind: string): boolean => /hole|mortise|slot/.test(kind);

/** The whole of a piece before its joints, on the paper. */
function wholeOf({ stand: { size, placement } }: Member, { plane }: Cross): Rectangle {
  const corners = [0, size[0]].flatMap((x) =>
    [0, size[1]].flatMap((y) => [0, size[2]].map((z): Triple => [x, y, z])),
  );
  return boundsOf(corners.map((corner) => onPaper(plane, movedTo(placement, corner))));
}

/** Two sizes closer than this are one, mm. */
const isSame = (one: number, other: number): boolean => Math.abs(one - other) <= 0.01;

function tenonSizes(
  sizes: Sizes,
  cross: Cross,
  tenon: Shown,
  mine: readonly Shown[],
  its: readonly Shown[],
): void {
  const { place, b } = cross;
  const { room } = tenon;
  const [low, high] = spanOf(room, sizes.across);
  const [first, last] = spanOf(wholeOf(place.a, cross), sizes.across);
  const [from, to] = spanOf(room, sizes.depth);
  sizes.deep('tenon length', sawn(sizes, cross, tenon, false), room, false);
  const haunch = mine.find(({ of }) => of.what === 'haunch');
  sizes.wide(haunch === undefined ? 'tenon thickness' : 'tenon width', [low, high], room, false);
  if (haunch === undefined) {
    sizes.wide('shoulder', [first, low], room, false);
    if (!isSame(low - first, last - high)) {
      sizes.wide('other shoulder', [high, last], room, false);
    }
  } else {
    const [start, end] = spanOf(haunch.room, sizes.depth);
    // What is cut away of it is at the tenon's end; the haunch is the rest.
    const left: Span = Math.abs(start - from) < Math.abs(end - to) ? [end, to] : [from, start];
    sizes.deep('haunch length', left, haunch.room, false);
    sizes.wide('haunch width', spanOf(haunch.room, sizes.across), haunch.room, false);
  }
  const mortise = its.find(({ of }) => of.what === 'mortise');
  if (mortise === undefined || b === undefined || place.b === undefined) return;
  sizes.deep('mortise depth', sawn(sizes, cross, mortise, true), mortise.room, true);
  sizes.behind(place.b.piece.part.name, b, mortise.room, true);
  sizes.beside(place.b.piece.part.name, b, mortise.room, true);
}

/** So far beside a tenon its shoulder is looked at, mm. */
const BESIDE = 0.5;

/**
 * From where to where a tenon or its mortise goes. Where shoulders slant that is as long as its longest side, and in
 * the plane it begins where the wood beside it does.
 */
function sawn(sizes: Sizes, cross: Cross, { of, room }: Shown, isMortise: boolean): Span {
  const [from, to] = spanOf(room, sizes.depth);
  const isSlanted = of.cut.kind === 'angled mortise' || 'shoulder' in of.cut;
  const face = isMortise ? cross.b : cross.a;
  if (!isSlanted || face === undefined) return [from, to];
  const goesUp = cross.plane.sign > 0;
  const mouth = goesUp ? from : to;
  const wood = woodOn(face.areas, sizes.depth, spanOf(room, sizes.across)[0] - BESIDE);
  const ends = wood.map((span) => span[goesUp === isMortise ? 0 : 1]);
  const [at] = ends.sort((one, other) => Math.abs(one - mouth) - Math.abs(other - mouth));
  if (at === undefined) return [from, to];
  return goesUp ? [at, to] : [from, at];
}

/** Grooves, dados, rabbets, tongues and laps. */
function channelSizes(
  sizes: Sizes,
  cross: Cross,
  mine: readonly Shown[],
  its: readonly Shown[],
): void {
  const { place, plane, a, b } = cross;
  const isInPart = plane.host === 'a';
  const [host, face] = isInPart ? ([place.a, a] as const) : ([place.b, b] as const);
  const [cut] = isInPart ? mine : its;
  if (cut === undefined || host === undefined || face === undefined) return;
  const { what } = cut.of;
  sizes.wide(`${what} width`, spanOf(cut.room, sizes.across), cut.room, true);
  sizes.deep(`${what} depth`, spanOf(cut.room, sizes.depth), cut.room, true);
  sizes.behind(host.piece.part.name, face, cut.room, true);
  // A dado, and a lap, is where the other part is; along an edge it is where it is measured from it.
  if (what !== 'half lap') sizes.beside(host.piece.part.name, face, cut.room, true);
  const beside = isInPart ? [] : mine.filter(({ of }) => of.what === 'rabbet beside the tongue');
  const strips = beside
    .map(({ room }) => spanOf(room, sizes.across))
    .sort((one, other) => one[0] - other[0]);
  const [first, last] = strips;
  const [strip] = beside;
  if (first === undefined || last === undefined || strip === undefined) return;
  sizes.wide('tongue thickness', [first[1], last[0]], strip.room, false);
  sizes.wide('shoulder', first, strip.room, false);
  sizes.deep('tongue length', spanOf(strip.room, sizes.depth), strip.room, false);
}

/** Fingers or tails that follow each other along the end of the part. */
function rowSizes(sizes: Sizes, cross: Cross, mine: readonly Shown[]): void {
  const { place } = cross;
  const isTails = place.joint.kind === 'dovetails';
  const [low, high] = spanOf(wholeOf(place.a, cross), sizes.across);
  const gaps = mine
    .map(({ room }) => ({ room, span: spanOf(room, sizes.across) }))
    .sort((one, other) => one.span[0] - other.span[0])
    .map(({ room, span: [from, to] }) => ({
      room,
      span: [Math.max(low, from), Math.min(high, to)] as Span,
    }));
  const [first, second] = gaps;
  if (first === undefined) return;
  const name = isTails ? 'tail' : 'finger';
  sizes.deep(`${name} length`, spanOf(first.room, sizes.depth), first.room, true);
  sizes.wide(isTails ? 'half pin' : 'gap between fingers', first.span, first.room, true);
  if (!isTails) sizes.wide('finger width', [low, first.span[0]], first.room, true);
  if (second === undefined) return;
  if (!isTails) return;
  sizes.wide('tail width', [first.span[1], second.span[0]], first.room, true);
  if (gaps.length > 2) sizes.wide('gap between tails', second.span, second.room, true);
}

/** Holes, slots and mortises for loose tenons. */
function holeSizes(
  sizes: Sizes,
  cross: Cross,
  shown: readonly Shown[],
  member: Member,
  isInHost: boolean,
): void {
  const { name } = member.piece.part;
  const whole = wholeOf(member, cross);
  const [pocket] = shown;
  if (pocket?.of.what === 'pocket hole') {
    const [start, end] = spanOf(whole, sizes.depth);
    const at = mouthOf(cross, member, pocket)[sizes.depth === 'x' ? 0 : 1];
    const out: Span = cross.plane.sign > 0 ? [at, end] : [start, at];
    sizes.deep('pocket from the end', out, pocket.room, isInHost);
    sizes.wide(`thickness of ${name}`, spanOf(whole, sizes.across), pocket.room, isInHost);
    return;
  }
  const [hole] = shown;
  if (hole === undefined) return;
  const { what, cut } = hole.of;
  const isRound = 'diameter' in cut;
  const span = spanOf(hole.room, sizes.across);
  const wide =
    cut.kind === 'slot' ? 'slot length' : isRound ? `${what} across` : `${what} thickness`;
  sizes.wide(`${wide} in ${name}`, span, hole.room, isInHost, isRound);
  sizes.deep(`${what} depth in ${name}`, spanOf(hole.room, sizes.depth), hole.room, isInHost);
  const [low, high] = spanOf(whole, sizes.across);
  const middle = (span[0] + span[1]) / 2;
  // From the nearer side: to the middle of what is drilled, to the near edge of what is not.
  const [near, far] = isRound ? [middle, middle] : span;
  const from: Span = middle - low <= high - middle ? [low, near] : [far, high];
  sizes.wide(`from the face of ${name}`, from, hole.room, isInHost);
  const face = isInHost === (cross.plane.host === 'a') ? cross.a : cross.b;
  if (face !== undefined) sizes.behind(name, face, hole.room, isInHost);
}

function mouthOf({ plane }: Cross, { stand }: Member, { of }: Shown): readonly [number, number] {
  const mouth = boreOf(stand, of)?.mouth ?? [0, 0, 0];
  return onPaper(plane, mouth);
}
