import type { PackedSheet, Packing, Piece } from './sheets-pack.ts';
import type {
  CutTree,
  Place,
  PlacedRectangle,
  PlannedSheet,
  SheetCut,
  SheetsJob,
  SheetsPlan,
} from './sheets-types.ts';
import { LENGTH_STEP, MONEY_STEP } from './units.ts';

/** Puts a packing in the job's own words and unit. */
export function presentedSheets(job: SheetsJob, packing: Packing, bound: number): SheetsPlan {
  const counts = job.sheets.map(() => 0);
  const sheets = packing.sheets.map((sheet) => presentedSheet(job, sheet));
  let bought = 0;
  let used = 0;
  for (const { index, length, width, parts } of sheets) {
    counts[index] = (counts[index] as number) + 1;
    bought += length * width;
    for (const part of parts) used += part.length * part.width;
  }
  const cost = counts.reduce((sum, count, i) => sum + count * (job.sheets[i]?.price ?? 0), 0);
  const proven = packing.cost <= bound;
  // Where the bound is met it is the cost itself, up to the step that prices are rounded to.
  const least = proven ? cost : Math.min(cost, bound * MONEY_STEP);
  const waste = bought === 0 ? 0 : (bought - used) / bought;
  return { sheets, cost, bound: least, gap: cost - least, proven, counts, waste };
}

function presentedSheet(job: SheetsJob, { kind, root }: PackedSheet): PlannedSheet {
  const { length, width, price } = job.sheets[kind] ?? { length: 0, width: 0, price: 0 };
  const trim = job.edgeTrim ?? 0;
  const kerf = job.kerf ?? 0;
  const parts: PlacedRectangle[] = [];
  const offcuts: Place[] = [];
  const cuts: SheetCut[] = [];
  // A piece is a kerf larger than what is left of it; where nothing is, it is all sawdust.
  const placeOf = (piece: Piece): Place => ({
    x: trim + piece.x * LENGTH_STEP,
    y: trim + piece.y * LENGTH_STEP,
    length: Math.max(0, piece.length * LENGTH_STEP - kerf),
    width: Math.max(0, piece.width * LENGTH_STEP - kerf),
  });
  const walk = (piece: Piece): CutTree => {
    const place = placeOf(piece);
    if (piece.panel !== undefined) {
      const { panel, turned } = piece.panel;
      const part = job.parts[panel.part];
      const own = { key: part?.key ?? '', turned };
      const [along, across] = turned
        ? [part?.width ?? 0, part?.length ?? 0]
        : [part?.length ?? 0, part?.width ?? 0];
      parts.push({ x: place.x, y: place.y, length: along, width: across, ...own });
      return { piece: place, part: parts.length - 1 };
    }
    if (piece.cut === undefined) {
      if (Math.min(place.length, place.width) > LENGTH_STEP * 10) offcuts.push(place);
      return { piece: place };
    }
    const { kind: how, near, far } = piece.cut;
    const size = how === 'rip' ? near.width : near.length;
    const at = (how === 'rip' ? place.y : place.x) + size * LENGTH_STEP - kerf;
    cuts.push({ kind: how, at, piece: place });
    return { piece: place, cut: { kind: how, at }, near: walk(near), far: walk(far) };
  };
  const tree = walk(root);
  return { index: kind, length, width, price, parts, offcuts, tree, cuts };
}
