import type { Meter } from './knapsack.ts';
import { fits, type Panel, type SheetKind, type SheetsProblem } from './sheets-problem.ts';

/** A rectangle in steps and what becomes of it. */
export interface Piece {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  cut?: { readonly kind: 'rip' | 'cross'; readonly near: Piece; readonly far: Piece };
  panel?: { readonly panel: Panel; readonly turned: boolean };
}

export interface PackedSheet {
  readonly kind: number;
  readonly root: Piece;
  readonly free: Piece[];
  readonly panels: Panel[];
}

export interface Packing {
  readonly sheets: readonly PackedSheet[];
  readonly cost: number;
}

/** How a piece is divided when a panel comes off its corner. */
export type Split = 'rip' | 'cross' | 'long' | 'short' | 'even' | 'uneven';
/** Which free piece a panel goes to: least area left, least left on one side, or on both. */
export type Choice = 'area' | 'side' | 'sides';

export interface Rule {
  readonly split: Split;
  readonly choice: Choice;
  /** The kind of sheet that is opened where nothing fits. */
  readonly usual: number;
}

const newSheet = (kind: number, { length, width }: SheetKind): PackedSheet => {
  const root: Piece = { x: 0, y: 0, length, width };
  return { kind, root, free: [root], panels: [] };
};

/**
 * Panels in the order given, each cut off the corner of the free piece that suits it best; every cut
 * runs from edge to edge of its piece.
 * @returns undefined where the supplies run out or the meter does
 */
export function pack(
  { kinds }: SheetsProblem,
  panels: readonly Panel[],
  rule: Rule,
  meter: Meter,
): Packing | undefined {
  const supply = kinds.map((kind) => kind.supply);
  const sheets: PackedSheet[] = [];
  for (const panel of panels) {
    let spot = bestSpot(sheets, panel, rule.choice, meter);
    if (meter.left <= 0) return undefined;
    if (spot === undefined) {
      const kind = kindFor(kinds, supply, rule.usual, panel);
      if (kind < 0) return undefined;
      supply[kind] = (supply[kind] as number) - 1;
      const sheet = newSheet(kind, kinds[kind] as SheetKind);
      sheets.push(sheet);
      spot = bestSpot([sheet], panel, rule.choice, meter);
    }
    if (spot === undefined) return undefined;
    place(spot, panel, rule.split);
  }
  const cost = sheets.reduce((sum, { kind }) => sum + (kinds[kind] as SheetKind).price, 0);
  return { sheets, cost };
}

interface Spot {
  readonly sheet: PackedSheet;
  readonly at: number;
  readonly turned: boolean;
}

function bestSpot(
  sheets: readonly PackedSheet[],
  panel: Panel,
  choice: Choice,
  meter: Meter,
): Spot | undefined {
  let best: Spot | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const sheet of sheets) {
    meter.left -= sheet.free.length;
    for (let at = 0; at < sheet.free.length; at += 1) {
      const piece = sheet.free[at] as Piece;
      for (const turned of panel.mayTurn ? [false, true] : [false]) {
        const length = turned ? panel.width : panel.length;
        const width = turned ? panel.length : panel.width;
        if (length > piece.length || width > piece.width) continue;
        const left = leftOver(piece, length, width, choice);
        if (left >= least) continue;
        least = left;
        best = { sheet, at, turned };
      }
    }
  }
  return best;
}

function leftOver(piece: Piece, length: number, width: number, choice: Choice): number {
  const [along, across] = [piece.length - length, piece.width - width];
  if (choice === 'side') return Math.min(along, across);
  if (choice === 'sides') return Math.max(along, across);
  return piece.length * piece.width - length * width;
}

/** The usual kind where it is there and has the room, else the cheapest that does. */
function kindFor(
  kinds: readonly SheetKind[],
  supply: readonly number[],
  usual: number,
  panel: Panel,
): number {
  const serves = (kind: number) => (supply[kind] ?? 0) > 0 && fits(panel, kinds[kind] as SheetKind);
  if (serves(usual)) return usual;
  let best = -1;
  kinds.forEach(({ price }, kind) => {
    if (serves(kind) && (best < 0 || price < (kinds[best] as SheetKind).price)) best = kind;
  });
  return best;
}

function place({ sheet, at, turned }: Spot, panel: Panel, split: Split): void {
  const piece = sheet.free[at] as Piece;
  sheet.free.splice(at, 1);
  sheet.panels.push(panel);
  const length = turned ? panel.width : panel.length;
  const width = turned ? panel.length : panel.width;
  const kind = firstCut(piece, length, width, split);
  let rest = piece;
  for (const cut of kind === 'rip' ? (['rip', 'cross'] as const) : (['cross', 'rip'] as const)) {
    const far = cut === 'rip' ? rest.width - width : rest.length - length;
    if (far > 0) rest = divide(sheet, rest, cut, cut === 'rip' ? width : length);
  }
  rest.panel = { panel, turned };
}

/** Cuts a piece in two, sets the far one free and hands back the near one. */
function divide(sheet: PackedSheet, piece: Piece, kind: 'rip' | 'cross', size: number): Piece {
  const { x, y, length, width } = piece;
  const near: Piece =
    kind === 'rip' ? { x, y, length, width: size } : { x, y, length: size, width };
  const far: Piece =
    kind === 'rip'
      ? { x, y: y + size, length, width: width - size }
      : { x: x + size, y, length: length - size, width };
  piece.cut = { kind, near, far };
  sheet.free.push(far);
  return near;
}

function firstCut(piece: Piece, length: number, width: number, split: Split): 'rip' | 'cross' {
  if (split === 'rip' || split === 'cross') return split;
  const [along, across] = [piece.length - length, piece.width - width];
  if (split === 'long') return along > across ? 'cross' : 'rip';
  if (split === 'short') return along > across ? 'rip' : 'cross';
  // Ripping first leaves the far strip as long as the piece; crosscutting first, as wide.
  const ripped = Math.max(piece.length * across, along * width);
  const crossed = Math.max(piece.width * along, across * length);
  const larger = ripped >= crossed ? 'rip' : 'cross';
  if (split === 'uneven') return larger;
  return larger === 'rip' ? 'cross' : 'rip';
}
