import {
  type Joint,
  type JointCut,
  type JointWork,
  resolveJoints,
} from '@kerfbook/functions/joints';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Piece } from '../scene.ts';
import type { ShopSource } from '../shop/shop-plan.ts';
import { type Format, mmFromOwn } from '../units.ts';
import { type MarkedPieces, markedPieces } from './marking.ts';
import { metSides } from './met-sides.ts';

/** What pocket screws are set out with. */
export interface PocketScrews {
  /** How many go into one end of a piece. */
  readonly each: number;
  /** How long one is, mm. */
  readonly length: number;
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** Whose usual sizes are taken. */
  readonly units: OpenWorkbook['units'];
  /** How far from the edges of a piece of this width, mm, the outer ones stand; as is usual where undefined. */
  readonly fromEdge?: (part: string, width: number) => number | undefined;
}

/** Widest of a pocket, and the wood between it and a groove at the least, mm: common practice, no source. */
const POCKET_WIDE = 9.525;
const TO_GROOVE = 1.5;

/**
 * How far from the edge pockets stand in aprons that have the groove for buttons or clips in the same face: a screw's head
 * that stands in the groove holds by half. As is usual where there is no groove, or no room beside it.
 */
export function clearOfGroove(
  source: Pick<ShopSource, 'named' | 'units'>,
): NonNullable<PocketScrews['fromEdge']> {
  const numberOf = (name: string): number => {
    const value = source.named(name)?.value;
    return value?.kind === 'number' ? value.number : 0;
  };
  const isHeld = ['fastener_long', 'fastener_short'].some((name) => {
    const value = source.named(name)?.value;
    return value?.kind === 'text' && /^(?:button|clip)$/.test(value.text);
  });
  const edge = mmFromOwn(numberOf('groove_edge') + numberOf('groove_width'), source.units);
  const least = edge + POCKET_WIDE / 2 + TO_GROOVE;
  return (part, width) =>
    isHeld && edge > 0 && /apron/i.test(part) && width >= 2 * least + POCKET_WIDE
      ? Math.max(least, width / 4)
      : undefined;
}

/** Where pocket screws go. */
export interface PocketPlaces {
  /** How many there are in all. */
  readonly count: number;
  /** The pockets of each piece, as they are marked out. */
  readonly marked: readonly MarkedPieces[];
}

/**
 * Where pocket screws go if they hold every end that stands against the side of another piece and that no joint of
 * the joints table holds; spaced as rows of pocket holes in that table are. Whether they hold all of those ends, who
 * asks has to see by the count.
 */
export function pocketPlaces(
  pieces: readonly Piece[],
  work: Pick<JointWork, 'cuts'> | undefined,
  { each, length, format, units, fromEdge }: PocketScrews,
): PocketPlaces {
  const joints = new Map<string, Joint>();
  for (const { part: into, told } of metSides(pieces, work)) {
    for (const { part } of told) {
      // No row of a table has it: what is wrong with it is said nowhere.
      const at = { sheet: '', row: joints.size, column: 0 };
      const width = pieces.find((piece) => piece.part.name === part)?.part.width ?? 0;
      const fromEnd = each > 1 ? fromEdge?.(part, width) : undefined;
      joints.set(JSON.stringify([part, into]), {
        at,
        cells: new Map(),
        kind: 'pocket holes',
        part,
        into,
        length,
        count: each,
        ...(fromEnd === undefined ? {} : { fromEnd }),
      });
    }
  }
  const pockets = new Map<number, JointCut[]>();
  let count = 0;
  for (const joint of joints.values()) {
    // A single part in the very middle has no face that looks inward: then any will do that the drill comes to.
    for (const face of ANY_FACE) {
      const one = face === undefined ? joint : { ...joint, faces: [face] };
      const made = resolveJoints(pieces, [one], { format, units });
      const screws = made.hardware.filter(({ kind }) => kind === 'pocket screw');
      if (screws.length === 0) continue;
      count += screws.reduce((sum, { count: of }) => sum + of, 0);
      for (const [index, cuts] of made.cuts) {
        const own = cuts.filter(({ what }) => what === 'pocket hole');
        pockets.set(index, [...(pockets.get(index) ?? []), ...own]);
      }
      break;
    }
  }
  return { count, marked: markedPieces(pieces, { cuts: pockets }) };
}

const ANY_FACE = [undefined, 'left', 'front', 'bottom'] as const;
