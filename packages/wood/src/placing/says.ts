import { type AxisPlace, axisWord } from './forms.ts';

/** A row with a fault. */
export interface FaultyRow {
  readonly name: string;
  /** Which of the rows that ask for a place; left out where its sizes or count cannot be read. */
  readonly index?: number;
}

/** A place that cannot be read or found; its message is the sentence a maker reads. */
export class PlaceFault extends Error {
  /** The row where it began; nothing as long as nobody but that row has met it. */
  from?: FaultyRow;

  constructor(says: string) {
    super(says);
    this.name = 'PlaceFault';
  }
}

const USUAL =
  'It takes words such as "four corners of Top", "both ends of Top", "between Leg along" or "under Top"';

/** What can be wrong with a place in words: what was typed, what was expected, what to do. */
export const PLACE_SAYS = {
  unread: (part: string, words: string, near: string | undefined) =>
    `The place of ${part} says "${words}", which places nothing. ${near === undefined ? USUAL : `Nearest: "${near}"`}.`,
  notText: (part: string, got: string) => `The place of ${part} is ${got}. ${USUAL}.`,
  noName: (part: string, words: string) =>
    `The place of ${part} says "${words}" and then no part. Name one, such as "${words} Top".`,
  unknown: (part: string, name: string, near: string | undefined) =>
    `The place of ${part} names "${name}", and no part is called that. ${near === undefined ? "Type a part's name as it stands in the first column" : `Nearest: "${near}"`}.`,
  alone: (part: string) =>
    `The place of ${part} takes another part to go by, and no other has a place. Give one a place first, such as x, y and z of 0.`,
  itself: (part: string) =>
    `${part} cannot be placed from itself. Name the part that it stands beside.`,
  whichWay: (part: string, words: string) =>
    `The place of ${part} says "${words}" and not which way: add "along", "across" or "up", such as "${words} along".`,
  twice: (part: string, axis: AxisPlace) =>
    `The place of ${part} says twice where it goes ${axisWord(axis)}. Keep one of the two.`,
  manyEqual: (part: string) =>
    `The place of ${part} asks for equal spaces in two directions. Keep one, and make the other "both ends" or "front and back".`,
  count: (part: string, takes: number, count: number) =>
    takes === 1
      ? `The place of ${part} is for 1 piece, and its count is ${count}. Add "four corners", "both ends", "front and back" or "equal spaces along".`
      : `The place of ${part} is for ${takes} pieces, and its count is ${count}. Make the count ${takes}, or change the place.`,
  shares: (part: string, by: number, count: number) =>
    `The place of ${part} puts its pieces in ${by} rows alike, and its count is ${count}. Make the count a multiple of ${by}.`,
  stepped: (part: string) =>
    `${part} has a place in words and a step. Clear step x, step y and step z, or clear the place.`,
  turned: (part: string, turn: string) =>
    `The place of ${part} says how it is turned, and so does its turn, ${turn}. Clear one of the two.`,
  around: (part: string, other: string, axis: AxisPlace) =>
    part === other
      ? `${part} is placed from parts that are placed from it, ${axisWord(axis)}. Give one of them a number instead.`
      : `${part} and ${other} are each placed from the other, ${axisWord(axis)}. Give one of them a number instead.`,
  nowhere: (part: string, other: string) =>
    `${part} is placed from ${other}, which has no place yet. Give ${other} a place, or x, y and z.`,
  /** The row that it goes by in the end says itself what is wrong with it. */
  rests: (part: string, other: string) => `The place of ${part} rests on ${other}; look there.`,
  none: (part: string, other: string) =>
    `${part} is placed from ${other}, which is counted 0 and has no size or no place. Give ${other} its sizes and a place to go by, or name another part.`,
  short: (part: string, length: string, between: readonly string[], room: string) =>
    `${part} is ${length} long; between ${between.length === 1 ? `the pieces of ${between[0]}` : between.join(' and ')} it has ${room}. Make it ${room} long, or longer where it has tenons.`,
  noLength: (part: string, between: readonly string[], room: string) =>
    `The length of ${part} is empty; between ${between.length === 1 ? `the pieces of ${between[0]}` : between.join(' and ')} it has ${room}. Type ${room}, or more where it has tenons.`,
  floor: (part: string, words: string, between: readonly string[], under: string | undefined) =>
    `${part} lies on the floor between ${between.length === 1 ? `the pieces of ${between[0]}` : between.join(' and ')}. ${under === undefined ? `Add "under" and the part it hangs from to its place` : `Make its place "${words}, under ${under}"`}, or type under z how far it is off the floor: 0 if it belongs there.`,
  unsaid: (part: string, said: readonly string[], open: readonly string[]) =>
    `${part} has its ${said.join(' and ')} typed and nothing under ${open.join(' and ')}, where it is put at 0. Type 0 if it belongs there, or how far it is from there.`,
  oneLine: (part: string, other: string, axis: AxisPlace) =>
    `${part} goes between the pieces of ${other}, and ${axisWord(axis)} they stand in one line, so there is no gap. Say the other way, or name two parts.`,
  noGap: (part: string, one: string, other: string, axis: AxisPlace) =>
    `${part} goes between ${one} and ${other}, and ${axisWord(axis)} these have the same middle, so there is no gap. Say the other way.`,
} as const;
