import { axesInFace, extent, sideOf } from '@kerfbook/functions/joints';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Dimension } from '../dimensions.ts';
import { piecesDiffer, pieceWords } from '../piece-words.ts';
import { scaleText } from '../scales.ts';
import type { Format } from '../units.ts';
import type { JointDetail } from './detail.ts';
import type { JointPlace } from './joint-places.ts';

/** `Leg and long apron: mortise and tenon, 1 : 2`. */
export const detailTitle = (
  detail: Pick<JointDetail, 'place' | 'scale'>,
  units: OpenWorkbook['units'],
): string => `${detailName(detail)}, ${scaleText(detail.scale, units)}`;

/** `Leg and long apron: mortise and tenon`. */
export function detailName({ place: { joint } }: Pick<JointDetail, 'place'>): string {
  const names = joint.into === undefined ? joint.part : `${joint.into} and ${small(joint.part)}`;
  return `${names}: ${joint.kind}`;
}

/** As a name stands within a line; what is spelled in capitals stays. */
const small = (words: string): string =>
  /^[A-Z][a-z]/.test(words) ? words.slice(0, 1).toLowerCase() + words.slice(1) : words;

/** From where the section is seen, what it does not show, and sizes that no line has room for. */
export function detailNote(detail: JointDetail, format: Format): string {
  const { place, plane, unplaced } = detail;
  const beside = besideOf(place, format);
  const also = unplaced.map((one) => sizeInWords(one, format));
  return [
    `Seen ${seenFrom(plane.normal)}${atPiece(place)}.`,
    ...(beside === undefined ? [] : [`${beside}.`]),
    ...(also.length === 0 ? [] : [`No room in the drawing for: ${also.join(', ')}.`]),
    ...markedFrom(detail),
  ].join(' ');
}

/** As it is said without a line that shows it: `half pin 6.5`, `8 from the face of Side`, `dowel hole in Side 10 across`. */
function sizeInWords({ key, from, to }: Dimension, format: Format): string {
  const size = format(to - from);
  if (key.startsWith('from ')) return `${size} ${key}`;
  const [what, , where = ''] = key.split(/( across)(?= in |$)/);
  return what === key ? `${key} ${size}` : `${what}${where} ${size} across`;
}

/** At which of several pieces that are not made alike: `, at the front left leg`. */
function atPiece({ a, b }: JointPlace): string {
  const { part, copy } = (b ?? a).piece;
  const place = piecesDiffer(part) ? pieceWords(part)?.[copy] : undefined;
  return place === undefined ? '' : `, at the ${place} ${small(part.name)}`;
}

/** What the loops mean: `Loops mark the faces to measure from: front face of the leg, outside face of the apron.` */
function markedFrom({ marks }: Pick<JointDetail, 'marks'>): readonly string[] {
  if (marks.length === 0) return [];
  const faces = [...new Set(marks.map(({ mark }) => `${mark.word} of the ${small(mark.part)}`))];
  const says = faces.length === 1 ? 'The loop marks the face' : 'Loops mark the faces';
  return [`${says} to measure from: ${faces.join(', ')}.`];
}

const SIDES = ['from the right end', 'from the front', 'from the top'];

function seenFrom(normal: readonly number[]): string {
  const most = Math.max(...normal.map(Math.abs));
  return SIDES[normal.findIndex((one) => Math.abs(one) === most)] ?? '';
}

/** What is told beside the sizes in the drawing: how wide the tenon is that is seen along, how many dowels there are. */
export function besideOf({ a, b, joint }: JointPlace, format: Format): string | undefined {
  const tenon = a.cuts.find(({ cut }) => cut.kind === 'tenon');
  if (tenon !== undefined) {
    const mortises = b?.cuts.filter(({ what }) => what === 'mortise').length ?? 0;
    const isHaunched = a.cuts.some(({ what }) => what === 'haunch');
    const size = isHaunched
      ? `${format(extent(tenon.box, 2))} thick`
      : `${format(extent(tenon.box, 1))} wide`;
    const split = mortises > 1 ? `, split into ${mortises}` : '';
    return `Tenon ${size}${split}${tenon.note === undefined ? '' : `, ${tenon.note}`}`;
  }
  const cuts = a.cuts.length > 0 ? a.cuts : (b?.cuts ?? []);
  const [first] = cuts;
  if (first === undefined) return undefined;
  const { cut } = first;
  switch (joint.kind) {
    case 'pocket holes': {
      const count = cuts.filter(({ what }) => what === 'pocket hole').length;
      const lean = 'lean' in cut ? (cut.lean ?? 0) : 0;
      return `${many(count, 'pocket hole')} at ${90 - lean}° to the face`;
    }
    case 'dovetails':
      return cut.kind === 'dovetail' ? `Tails slope ${slope(cut.angle)}` : undefined;
    case 'dowels':
      return many(cuts.length, 'dowel');
    case 'screws':
      return many(cuts.length, 'screw');
    case 'hole':
    case 'slot':
      return many(cuts.length, joint.kind);
    case 'loose tenon': {
      const wide = axesInFace(sideOf(first.face).axis).map((axis) => extent(first.box, axis));
      return `${many(cuts.length, 'loose tenon')} ${format(Math.max(...wide))} wide`;
    }
    default:
      return undefined;
  }
}

/** As it is told on the bench: `1 : 8`. */
const slope = (degrees: number): string =>
  `1 : ${Math.round(10 / Math.tan((degrees * Math.PI) / 180)) / 10}`;

const many = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
