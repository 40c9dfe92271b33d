import type { UnitSystem } from '@kerfbook/wood';
import {
  type CountPlace,
  countPlace,
  type Heads,
  headsIn,
  isHeadless,
  orderIn,
  orderOf,
  readColumns,
  readHeadless,
  unitNamed,
} from './columns-in.ts';
import { finishRow, openNumbers } from './finish-row.ts';
import { notRead, readLine, withoutBullet } from './one-line.ts';
import { MOST_LETTERS, MOST_LINES, type PlainLine, plainLines } from './plain-lines.ts';
import type { BareUnit, Side } from './sizes-in.ts';
import type { FoundLine, ListContext, ListReading, UnreadLine } from './types.ts';
import { woodIn } from './wood-words.ts';

/** Longer than any board in inches, 20 ft: what is more is in millimeters. Common practice, no source. */
const LONGEST_IN_INCHES = 240;
/** A number up to this may be in centimeters where a workbook is metric: common practice, no source. */
const LONGEST_IN_CENTIMETERS = 300;

/**
 * Reads a text of parts or boards, a line each, in any shape that makers write them. Nothing of it is dropped: each
 * line that holds anything is a row or stands among those that were not read. Never throws.
 */
export function readList(text: string, context: ListContext): ListReading {
  const nothing = { rows: [], unread: [] };
  if (text.length > MOST_LETTERS) {
    return {
      ...nothing,
      refused: `That is more than ${MOST_LETTERS / 1000},000 letters. Paste the list in pieces.`,
    };
  }
  const lines = plainLines(text);
  if (lines.length > MOST_LINES) {
    return {
      ...nothing,
      refused: `That is ${lines.length.toLocaleString('en-US')} lines; ${MOST_LINES.toLocaleString('en-US')} are read at once. Paste the list in pieces.`,
    };
  }
  const { found, unread, named } = findLines(lines, context);
  const bare = bareOf(found, context, named);
  const unit = bare?.unit ?? context.unit ?? usual(context.units);
  return {
    rows: found.map((one, i) => finishRow(one, unit, context, i + 1)),
    unread,
    ...(bare === undefined ? {} : { bare }),
  };
}

const usual = (units: UnitSystem): BareUnit => (units === 'us' ? 'in' : 'mm');

interface Found {
  readonly found: readonly FoundLine[];
  readonly unread: readonly UnreadLine[];
  /** What the text says that its numbers are in. */
  readonly named: BareUnit | undefined;
}

function findLines(lines: readonly PlainLine[], context: ListContext): Found {
  const found: FoundLine[] = [];
  const unread: UnreadLine[] = [];
  const isNumbered = numbered(lines);
  const place = countPlace(lines.filter(isHeadless));
  let heads: Heads | undefined;
  let order: readonly Side[] | undefined;
  let wood = '';
  let named: BareUnit | undefined;
  for (const one of lines) {
    const head = headsIn(one);
    if (head !== undefined) {
      heads = one.fields.length > 1 ? head : undefined;
      order = orderOf(head) ?? orderIn(one.plain) ?? order;
      named ??= unitNamed(one.plain);
      unread.push({
        line: one.line,
        text: one.text,
        says: 'The heads of the columns.',
        expected: true,
      });
      continue;
    }
    const said = notRead(one);
    if (said !== undefined) {
      const title = woodIn(one.plain.replace(/[:#]/g, '').trim(), context.woods ?? []);
      if (title?.rest === '' && !/\d/.test(one.plain)) wood = title.wood;
      order = orderIn(one.plain) ?? order;
      named ??= /\b(?:sizes?|dimensions?|measure[ds]?|measurements?|units?)\b/i.test(one.plain)
        ? unitNamed(one.plain)
        : undefined;
      unread.push(
        title?.rest === '' && wood !== ''
          ? { ...said, says: 'A heading: the wood of what follows.' }
          : said,
      );
      continue;
    }
    const read = readOne(one, { heads, order, wood, place, isNumbered, context });
    if ('says' in read) unread.push(read);
    else found.push(read);
  }
  return { found, unread, named };
}

interface Around {
  readonly heads: Heads | undefined;
  readonly order: readonly Side[] | undefined;
  readonly wood: string;
  readonly place: CountPlace;
  readonly isNumbered: boolean;
  readonly context: ListContext;
}

function readOne(one: PlainLine, around: Around): FoundLine | UnreadLine {
  const { heads, order, wood, place, isNumbered, context } = around;
  if (heads !== undefined && one.fields.length > 1) {
    const read = readColumns(one, heads, context, wood);
    if (read !== undefined) return read;
  }
  if (isHeadless(one)) return readHeadless(one, place, context, wood);
  const whole = one.fields.length > 1 ? one.fields.join(' ; ') : one.plain;
  const plain = withoutBullet(whole);
  return readLine(one, isNumbered ? plain.replace(NUMBER, '') : plain, { context, wood, order });
}

const NUMBER = /^(\d{1,3})[.)]\s+/;

/** Whether lines begin with the numbers of a list: 1, 2, 3, and so on. */
function numbered(lines: readonly PlainLine[]): boolean {
  const numbers = lines.flatMap(({ plain }) => {
    const found = NUMBER.exec(withoutBullet(plain))?.[1];
    return found === undefined ? [] : [Number(found)];
  });
  return numbers.length > 0 && numbers.every((number, i) => number === i + 1);
}

/** What bare numbers are in, with the reason; undefined where none is bare. */
function bareOf(
  found: readonly FoundLine[],
  { kind, units, unit }: ListContext,
  named: BareUnit | undefined,
): ListReading['bare'] {
  const open = found.flatMap((one) => openNumbers(one, kind));
  if (open.length === 0) return undefined;
  if (unit !== undefined) return { unit, why: 'As you chose.', asks: false };
  if (named !== undefined) return { unit: named, why: 'The text says so.', asks: false };
  const largest = Math.max(...open);
  const sizes = found.flatMap((one) => one.sizes);
  const fractions = sizes.some(({ fraction, said }) => fraction && said === undefined);
  if (fractions && largest <= LONGEST_IN_INCHES) {
    return { unit: 'in', why: 'The text has fractions.', asks: false };
  }
  if (largest > LONGEST_IN_INCHES) {
    if (units === 'metric') return { unit: 'mm', why: 'As in this workbook.', asks: fractions };
    return { unit: 'mm', why: `${largest} would be too long in inches.`, asks: fractions };
  }
  const elsewhere = new Set(sizes.flatMap(({ said }) => (said === undefined ? [] : [said.sign])));
  const [only, ...others] = elsewhere;
  if (
    only !== undefined &&
    others.length === 0 &&
    (only === 'in' || only === 'mm' || only === 'cm')
  ) {
    return { unit: only, why: `Other lines are in ${WORDS[only]}.`, asks: only !== usual(units) };
  }
  if (units === 'us') {
    return { unit: 'in', why: 'As in this workbook.', asks: largest > LONGEST_IN_INCHES / 2 };
  }
  return { unit: 'mm', why: 'As in this workbook.', asks: largest < LONGEST_IN_CENTIMETERS };
}

const WORDS: Readonly<Record<BareUnit, string>> = {
  in: 'inches',
  mm: 'millimeters',
  cm: 'centimeters',
};
