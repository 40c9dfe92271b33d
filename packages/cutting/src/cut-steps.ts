import type { CutBoard, CutStep, Piece } from './plan-pieces.ts';
import type { CutTree } from './sheets-types.ts';

/** Less than this is no wood: what converting between inch and millimetre adds. */
const NEAR = 1e-3;

/**
 * The saw cuts that a board comes apart by, in an order in which they can be made: a length is crosscut off
 * the board's end, then ripped, so that no rip is longer than its piece. What is of the right size already is
 * not cut.
 * @param kerf width of a saw cut, mm
 */
export function boardSteps<P extends Piece>(
  { stock, pieces }: Pick<CutBoard<P, Size>, 'stock' | 'pieces'>,
  kerf: number,
): readonly CutStep<P>[] {
  const steps: CutStep<P>[] = [];
  let end = 0;
  const rest = () => ({ x: end, y: 0, length: stock.length - end, width: stock.width });
  for (const { item, length, at, strips } of pieces) {
    // What a board's end loses: the cut stands before the piece.
    if (at - end > kerf + NEAR) {
      steps.push({ kind: 'crosscut', from: rest(), at: at - end - kerf });
      end = at;
    }
    const whole = stock.length - at;
    const blank = { x: at, y: 0, length: Math.min(length, whole), width: stock.width };
    const isStrip = strips === 1 && stock.width - item.width <= NEAR;
    if (whole - length > NEAR) {
      steps.push({
        kind: 'crosscut',
        from: rest(),
        at: length,
        ...(isStrip ? { gives: item } : {}),
      });
    }
    steps.push(...rips(item, blank, strips, kerf));
    end = at + length + kerf;
  }
  return steps;
}

type Size = { readonly length: number; readonly width: number };

/** Strips ripped off a length of board, the fence set once. */
function rips<P extends Piece>(
  item: P,
  blank: CutStep<P>['from'],
  strips: number,
  kerf: number,
): CutStep<P>[] {
  const steps: CutStep<P>[] = [];
  let edge = 0;
  for (let strip = 0; strip < strips; strip += 1) {
    const left = blank.width - edge;
    if (left - item.width <= NEAR) break;
    const last = left - item.width - kerf;
    const leaves = strip === strips - 2 && Math.abs(last - item.width) <= NEAR;
    steps.push({
      kind: 'rip',
      from: { ...blank, y: edge, width: left },
      at: item.width,
      gives: item,
      ...(leaves ? { leaves: item } : {}),
    });
    edge += item.width + kerf;
  }
  return steps;
}

/** The same of a sheet, from how it is divided: a piece comes off before it is cut up itself. */
export function sheetSteps<P>(tree: CutTree, itemOf: (part: number) => P): readonly CutStep<P>[] {
  const { piece, cut, near, far } = tree;
  if (cut === undefined) return [];
  const step: CutStep<P> = {
    kind: cut.kind === 'rip' ? 'rip' : 'crosscut',
    from: { x: piece.x, y: piece.y, length: piece.length, width: piece.width },
    at: cut.at - (cut.kind === 'rip' ? piece.y : piece.x),
    ...(near?.part === undefined ? {} : { gives: itemOf(near.part) }),
    ...(far?.part === undefined ? {} : { leaves: itemOf(far.part) }),
  };
  return [step, ...[near, far].flatMap((one) => (one ? sheetSteps(one, itemOf) : []))];
}
