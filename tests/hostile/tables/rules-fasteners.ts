import { inputOf, type OwnTable, wordOf } from './own-table.ts';
import { ownWood, settles, swells } from './own-wood.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import { weightOf } from './rules-load.ts';
import type { Stated } from './stated.ts';

/** Wood above a screw's point, in: less shows or comes through. Common practice, no source. */
const LEAST_ABOVE = 0.125;
/** Thread that a screw wants in the wood, in and in its diameters. Common practice, no source. */
const LEAST_THREAD = 0.25;
const DIAMETERS = 3;
/** Fasteners closer than this split what they hold, in. Common practice, no source. */
const LEAST_APART = 1;
/** Wood beside a slot, in. Common practice, no source. */
const LEAST_BESIDE = 0.125;
/** What the driver of a screw wants on both sides together, in. Common practice, no source. */
const SCREW_ROOM = 0.5;
/** Of the average pull that draws a screw, what is counted on: design codes allow about as much. */
const COUNTED_ON = 1 / 5;
const SLACK = 1e-6;
/** Of a tongue that must stay in its groove, in. Common practice, no source. */
const LEAST_HOLD = 0.0625;
/** How far apart two ways of rounding a movement may lie, in. */
const HAIR = 1 / 128;

/** How far an edge line of the top goes from the day it is fastened, a part of its distance to the middle. */
interface Moves {
  readonly out: number;
  readonly in: number;
}

/** Fasteners in a row along one apron, and what they let go. */
interface Row {
  readonly name: string;
  /** From the middle line of the top, in. */
  readonly off: number;
  /** How far it lets the top go out and in, in. */
  readonly lets: Moves;
  readonly count: number;
}

/** Screws that come through or hold nothing, and fasteners that do not let the top move. */
export function fastenerRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [
    ...screws(stated, table),
    ...places(stated, table),
    ...movement(stated, table),
    ...slots(stated, table),
  ];
}

const MM = 25.4;

/**
 * A screw's shank, in: by gauge 0.060 in + 0.013 in x gauge (ASME B18.6.1, from memory), or in
 * millimetres, which name the thread itself.
 */
export function shankOf(stated: Stated): number {
  const size = String(stated.inputs.screw_gauge ?? '');
  const [number = ''] = size.match(/\d[\d.]*/) ?? [];
  const value = Number(number);
  return size.includes('mm') ? value / MM : 0.06 + 0.013 * value;
}

/** Own climate, own wood: what the top does after the day it is built. */
export function movesOf(stated: Stated): Moves {
  const built = inputOf(stated, 'moisture_build');
  const seasons = ['dry', 'humid'].map((season) =>
    settles(inputOf(stated, `${season}_temperature`), inputOf(stated, `${season}_humidity`)),
  );
  const by = seasons.map((moisture) =>
    swells(wordOf(stated, 'species'), wordOf(stated, 'cut'), moisture - built),
  );
  return { out: Math.max(0, ...by), in: Math.max(0, ...by.map((one) => -one)) };
}

function rowsOf(stated: Stated, { support, clear }: OwnTable): readonly Row[] {
  const spacing = inputOf(stated, 'fastener_spacing');
  const end = inputOf(stated, 'fastener_end');
  const count = (room: number): number => Math.ceil((room - 2 * end) / spacing - SLACK) + 1;
  return [
    {
      name: 'long aprons',
      off: support.length / 2,
      lets: letsSquare(stated, wordOf(stated, 'fastener_long'), wordOf(stated, 'points_long')),
      count: count(clear.along),
    },
    {
      name: 'short aprons',
      off: clear.across / 2 - end,
      lets: letsAlong(stated, wordOf(stated, 'fastener_short'), wordOf(stated, 'points_short')),
      count: count(clear.across),
    },
  ];
}

const NOTHING: Moves = { out: 0, in: 0 };
const both = (each: number): Moves => ({ out: each, in: each });

/** An arm that lies across the movement swings both ways. */
const swings = (stated: Stated): Moves =>
  both(inputOf(stated, 'swivel_spacing') * Math.sin(swing(stated)));

const swing = (stated: Stated): number => (inputOf(stated, 'swivel_swing') * Math.PI) / 180;

const slides = (stated: Stated): Moves => both((inputOf(stated, 'slot_cut') - shankOf(stated)) / 2);

/** What a fastener on an apron that the top moves square to lets go. */
function letsSquare(stated: Stated, kind: string, points: string): Moves {
  const square = points === 'square to the apron';
  if (kind === 'figure-8') {
    // In line with the movement the arm can only get shorter: towards its apron, out.
    const shorter = inputOf(stated, 'swivel_spacing') * (1 - Math.cos(swing(stated)));
    return square ? { out: shorter, in: 0 } : swings(stated);
  }
  if (!square) return NOTHING;
  if (kind === 'slotted screw') return slides(stated);
  const tongue = inputOf(stated, 'tongue_length');
  const gap = inputOf(stated, 'tongue_gap');
  const entered = tongue - gap;
  return {
    out: Math.min(gap, inputOf(stated, 'groove_depth') - entered),
    in: entered - LEAST_HOLD,
  };
}

/** What a fastener on an apron that the top moves along lets go. */
function letsAlong(stated: Stated, kind: string, points: string): Moves {
  const square = points === 'square to the apron';
  if (kind === 'figure-8') {
    const shorter = inputOf(stated, 'swivel_spacing') * (1 - Math.cos(swing(stated)));
    return square ? swings(stated) : { out: shorter, in: 0 };
  }
  if (kind === 'slotted screw') return square ? NOTHING : slides(stated);
  // A tongue slides in its groove until it meets the leg.
  const room = inputOf(stated, 'fastener_end') - inputOf(stated, 'tongue_width') / 2;
  return square ? { out: room, in: Number.POSITIVE_INFINITY } : NOTHING;
}

function movement(stated: Stated, table: OwnTable): readonly Refusal[] {
  const moves = movesOf(stated);
  const found: Refusal[] = [];
  for (const { name, off, lets } of rowsOf(stated, table)) {
    for (const way of ['out', 'in'] as const) {
      const needs = moves[way] * off;
      if (needs <= lets[way] + HAIR) continue;
      const says = `The top wants ${inches(needs)} ${way} at the ${name}; fasteners let ${inches(lets[way])}.`;
      found.push(refusal('moves', says));
    }
  }
  return found;
}

/** Screws in the middle of slots across the supports, the outermost at a support's end. */
function slots(stated: Stated, { support }: OwnTable): readonly Refusal[] {
  const slot = stated.shown.slot_length;
  if (support.count === 0 || typeof slot !== 'number') return [];
  const moves = movesOf(stated);
  const diameter = shankOf(stated);
  const needs = ((moves.out + moves.in) * support.length) / 2 + diameter;
  const found: Refusal[] = [];
  if (slot < needs - HAIR) {
    const says = `A slot of ${inches(slot)} in the supports; the screw goes through ${inches(needs)}.`;
    found.push(refusal('slot', says));
  }
  if (diameter > support.thickness - 0.25) {
    const says = `A slot for ${inches(diameter)} leaves no wood of a support ${inches(support.thickness)} thick.`;
    found.push(refusal('slot-wide', says));
  }
  return found;
}

/** What a screw goes through before it comes to the top, by the kind of fastener. */
const THROUGH: Readonly<Record<string, string>> = {
  button: 'button_thickness',
  'slotted screw': 'slot_under',
};

function screws(stated: Stated, table: OwnTable): readonly Refusal[] {
  const { thickness, apron } = table;
  const screw = inputOf(stated, 'top_screw');
  const diameter = shankOf(stated);
  const above = Math.max(inputOf(stated, 'keep_back'), LEAST_ABOVE);
  const least = Math.max(LEAST_THREAD, DIAMETERS * diameter);
  const kinds = new Set(['fastener_long', 'fastener_short'].map((name) => wordOf(stated, name)));
  const found: Refusal[] = [];
  let shallowest = screw;
  for (const kind of kinds) {
    const into = screw - inputOf(stated, THROUGH[kind] ?? 'fastener_thickness');
    shallowest = Math.min(shallowest, into);
    if (into > thickness - above + SLACK) {
      const says = `A screw of ${inches(screw)} in a ${kind} leaves ${inches(thickness - into)} of the top.`;
      found.push(refusal('screw-through', says));
    }
    if (into < least - SLACK) {
      const says = `A screw of ${inches(screw)} in a ${kind} bites ${inches(into)}: it wants ${inches(least)} to hold.`;
      found.push(refusal('screw-short', says));
    }
  }
  if (diameter > apron.thickness / 2)
    found.push(refusal('screw-thick', `A screw of ${inches(diameter)} splits the aprons.`));
  return [...found, ...holds(stated, table, shallowest, diameter)];
}

/** Fasteners beside one another and beside the legs, and slots in the edge of an apron. */
function places(stated: Stated, table: OwnTable): readonly Refusal[] {
  const end = inputOf(stated, 'fastener_end');
  const found: Refusal[] = [];
  for (const [way, room] of Object.entries(table.clear)) {
    if (room - 2 * end >= LEAST_APART) continue;
    const says = `Fasteners ${inches(end)} from each leg meet: the room ${way} is ${inches(room)}.`;
    found.push(refusal('fasteners-meet', says));
  }
  const clear = { long: table.clear.along, short: table.clear.across };
  for (const [where, room] of Object.entries(clear)) {
    const kind = wordOf(stated, `fastener_${where}`);
    const square = wordOf(stated, `points_${where}`) === 'square to the apron';
    const takes = takesAlong(stated, kind, square);
    const count = Math.ceil((room - 2 * end) / inputOf(stated, 'fastener_spacing') - SLACK);
    const apart = (room - 2 * end) / Math.max(1, count);
    if (takes > apart + SLACK) {
      const says = `Every ${inches(apart)} of the ${where} aprons a ${kind} takes ${inches(takes)}: they meet.`;
      found.push(refusal('fasteners-beside', says));
    }
    if (takes / 2 > end + SLACK) {
      const says = `A ${kind} ${inches(end)} from the leg takes ${inches(takes / 2)}: it meets the leg.`;
      found.push(refusal('fastener-leg', says));
    }
    const left = table.apron.thickness - inputOf(stated, 'slot_cut');
    if (kind === 'slotted screw' && square && left < 2 * LEAST_BESIDE - SLACK) {
      const says = `A slot across the ${where} aprons leaves ${inches(left)} of their thickness.`;
      found.push(refusal('slot-out', says));
    }
  }
  return found;
}

/** How much of an apron's length one fastener takes up, in. */
function takesAlong(stated: Stated, kind: string, square: boolean): number {
  if (kind === 'button' || kind === 'clip') return inputOf(stated, 'tongue_width');
  if (kind === 'slotted screw' && !square) return inputOf(stated, 'slot_cut');
  return SCREW_ROOM;
}

/** Lifted by its top, a table hangs on its screws. */
function holds(
  stated: Stated,
  table: OwnTable,
  into: number,
  diameter: number,
): readonly Refusal[] {
  const count = rowsOf(stated, table).reduce((sum, row) => sum + 2 * Math.max(0, row.count), 0);
  const { gravity } = ownWood(wordOf(stated, 'species'));
  // Wood Handbook (FPL-GTR-190), chapter 8: pull that draws a wood screw out of side grain, on average.
  const pull = 15_700 * gravity ** 2 * diameter * Math.max(0, into) * COUNTED_ON * count;
  const base = weightOf(stated, table) - weightOf(stated, table, 'top');
  if (pull >= base) return [];
  const says = `${count} screws carry ${Math.round(pull)} lb; the base weighs ${Math.round(base)} lb.`;
  return [refusal('screws-hold', says)];
}
