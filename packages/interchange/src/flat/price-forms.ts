import type { Node } from '@kerfbook/document';
import { namesSameWood, type UnitSystem } from '@kerfbook/wood';
import { placedForm } from './standard-forms.ts';
import type { TableColumn } from './table-forms.ts';

/**
 * What a price list says, asked of its cells, so that another price, wood or thickness is followed. The rules are those
 * of `wood-prices.ts` of the trade's arithmetic: the nearest row of that thickness to within 2 mm, else the next thicker
 * one, else one without a thickness; of several alike the one with the latest day. Where the cells ask for more than is
 * read here (a grade, a unit by another word, a price below nothing, two rows of one day) the formula comes to an error
 * that IFNA lets through, never to another price; who writes it holds it against the workbook's own price first.
 */

/** `a` is the wood, `b` the thickness; the columns are `c` wood, `d` thickness, `e` price, `f` per, `g` day, `k` grade. */
const HEADS = ['wood', 'thickness', 'price', 'per', 'day'] as const;
const GRADE = 'grade';

/** Exact: 1 m³ in cubic inches, over the 144 of a board foot, as `wood-prices.ts` has it. */
const BOARD_FEET_IN_A_CUBIC_METER = (1000 / 25.4) ** 3 / 144;
/** The same thickness to within 2 mm, and how near two distances are one, in inches and in millimeters. */
const SAME: Readonly<Record<UnitSystem, string>> = { us: '(2/25.4+1E-9)', metric: '(2+2.54E-8)' };

/** Something that is no price and no missing one: IFNA does not put another price in its place. */
const REFUSED = 'SQRT(-1)';

function priceText(kind: string, price: string, system: UnitSystem): string {
  const asked = '(c=a)*ISNUMBER(e)';
  const isFaulty = `SUM(${asked}*((k<>"")+(e<0)+(f<>"")*(f<>"board foot")*(f<>"cubic meter")*(f<>"piece")))>0`;
  const isThere = `${asked}*${kind}*(1-(d<>"")*(d<b-${SAME[system]}))`;
  // How far its thickness is away, none farther than any; of what is as far, a later day is a little nearer.
  const away = `IF(d="",1E4,ROUND(ABS(d-b),5))-g*1E-11`;
  const rows = `IF(${isThere},${away},"")`;
  const isTwice = `SUM(1*(${rows}=MIN(${rows})))>1`;
  return `IF(OR(b<=0,${isFaulty},${isTwice}),${REFUSED},INDEX(${price},MATCH(MIN(${rows}),${rows},0)))`;
}

const FORMS: Readonly<Record<string, (system: UnitSystem) => string>> = {
  WOOD_PRICE: (system) =>
    priceText('(f<>"piece")', `IF(f="cubic meter",e/${BOARD_FEET_IN_A_CUBIC_METER},e)`, system),
  PIECE_PRICE: (system) => priceText('(f="piece")', 'e', system),
};

/** Names of the functions that are written out over the price list. */
export const LISTED_PRICES: readonly string[] = Object.keys(FORMS);

/** What is asked of a workbook's price list. */
export interface PriceSource {
  /** The columns of its one price list by their heads, in small letters; undefined where it has none, or several. */
  priceColumns(): ReadonlyMap<string, TableColumn> | undefined;
  /** The names that stand in its first column. */
  pricedWoods(): readonly string[];
  /** The words that may stand for an argument, the one it is now among them; undefined where that cannot be told. */
  wordsOf(argument: Node): readonly string[] | undefined;
}

/**
 * A call of ours that reads the workbook's price list, written out over its columns; undefined where a grade or another
 * list is given, and where a wood goes by another name in the list than in the cell that chooses it.
 */
export function priceForm(
  name: string,
  args: readonly Node[],
  system: UnitSystem,
  source: PriceSource,
): Node | undefined {
  const form = Object.hasOwn(FORMS, name) ? FORMS[name] : undefined;
  const [wood, thickness, ...more] = args;
  if (form === undefined || wood === undefined || thickness === undefined) return undefined;
  if ([wood, thickness].some(({ kind }) => kind === 'nothing')) return undefined;
  if (more.some(({ kind }) => kind !== 'nothing')) return undefined;
  const words = source.wordsOf(wood);
  const columns = source.priceColumns();
  if (words === undefined || columns === undefined) return undefined;
  const names = source.pricedWoods();
  const isByLetters = words.every((word) => {
    const isMeant = namesSameWood(word);
    return names.every((one) => isMeant(one) === (one.toLowerCase() === word.toLowerCase()));
  });
  if (!isByLetters) return undefined;
  const ranges = HEADS.map((head) => columns.get(head)?.range);
  const grade = columns.get(GRADE)?.range;
  if (grade === undefined || ranges.includes(undefined)) return undefined;
  return placedForm(form(system), [wood, thickness, ...ranges], grade);
}
