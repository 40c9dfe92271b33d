import {
  bookFormat,
  buildScene,
  cutList,
  drawViews,
  inFeet,
  isCase,
  isThin,
  moistureOf,
  overAllOf,
  readParts,
  shadedForPrint,
  sizeWords,
} from '@kerfbook/drawing';
import { type OpenWorkbook, readEntry, showValue, withUnit } from '@kerfbook/workbook';
import type { Html } from '../page/html.ts';
import { capital } from '../page/making.ts';
import type { GuideSource } from '../source.ts';
import { plainDrawing } from './plain-drawing.ts';

/** Names of the cells that a customer's papers may speak of: these, and no other cell of a workbook. */
export const SAID_NAMES = [
  'work_name',
  'species',
  'finish',
  'seats',
  'included',
  'not_included',
  'price',
  'quoted_price',
  'quote_rounded',
  'tax_percent',
  'quote_with_tax',
  'price_per_seat',
  'deposit',
  'deposit_percent',
  'second_percent',
  'quote_deposit',
  'care',
  'dry_humidity',
  'humid_humidity',
  'moisture_dry',
  'moisture_humid',
  'movement_swing',
  'movement_from_build_dry',
  'movement_from_build_humid',
  'seat_width',
] as const;

/** One of them. */
export type SaidName = (typeof SAID_NAMES)[number];

/** An amount as the workbook writes money, and the number that it then is: what is printed adds up. */
export interface Money {
  /** With the sign of its currency. */
  readonly text: string;
  /** Rounded as it is written. */
  readonly amount: number;
}

/** What the wide panel that moves is called there. */
export type PanelWord = 'top' | 'seat' | 'panel';

/**
 * Everything of a workbook that its customer's papers may say: they are made from nothing else. Whatever is not asked for
 * here cannot come into them, however a workbook is made.
 */
export interface Said {
  /** Whom it is for, when, what was agreed, and whose work it is. */
  readonly head: Pick<
    OpenWorkbook['head'],
    'customer' | 'job' | 'due' | 'agreed' | 'terms' | 'letterhead'
  >;
  /** What it is. */
  readonly title: string;
  /** Its sizes over all, each with what it is called. */
  readonly sizes: readonly (readonly [says: string, shown: string])[];
  /** What it is made of. */
  readonly wood: string | undefined;
  /** Some of it is solid wood, which moves. */
  readonly isSolid: boolean;
  /** It is a bookcase or a cabinet, which can be climbed. */
  readonly isCase: boolean;
  /** It is a door or a panel, on which nothing stands. */
  readonly isDoor: boolean;
  /** What of it moves with the seasons. */
  readonly panel: PanelWord;
  /** What it weighs, rounded, with its unit; undefined where that is not known. */
  readonly weight: string | undefined;
  /** A named cell as it shows, with its unit; undefined where there is none, or it is empty or in error. */
  readonly shown: (name: SaidName) => string | undefined;
  /** The number of a named cell. */
  readonly number: (name: SaidName) => number | undefined;
  /** A named cell is in error. */
  readonly fails: (name: SaidName) => boolean;
  /** An amount as it is written. */
  readonly money: (amount: number) => Money;
  /** How far something moves, in the workbook's unit: to 1/32 where that is the inch. */
  readonly travel: (own: number) => string;
  /** The furniture shaded, so wide and high on paper, mm; undefined where nothing has a place. */
  readonly picture: (wide: number, high: number) => Html | undefined;
  /** Its views with their sizes. */
  readonly views: () => readonly Html[];
}

/** lb: exact by definition (NIST SP 811, appendix B). */
const KG_A_POUND = 0.45359237;
/** A unit of the shaded drawing on paper, mm. */
const UNIT = 0.295;

/** Reads what a customer's papers may say of a workbook. */
export function saidOf(source: GuideSource): Said {
  const { units } = source;
  const { customer, job, due, agreed, terms, letterhead } = source.head;
  const head = {
    ...(customer === undefined ? {} : { customer }),
    ...(job === undefined ? {} : { job }),
    ...(due === undefined ? {} : { due }),
    ...(agreed === undefined ? {} : { agreed }),
    ...(terms === undefined ? {} : { terms }),
    ...(letterhead === undefined ? {} : { letterhead }),
  };
  const { parts } = readParts(source);
  const { extents } = buildScene(parts);
  const materials = cutList(parts, moistureOf(source)).materials;
  const figures = figuresSaid(source);
  const { shown } = figures;
  const overAll = extents === undefined ? undefined : overAllOf(source, extents);
  const format = bookFormat(source);
  const size = (mm: number): string =>
    units === 'us' ? `${format(mm)} in${inFeet(mm / 25.4)}` : `${format(mm)} mm`;
  const woods = materials.map(({ material }) => material).filter((wood) => wood !== '');
  const title = shown('work_name') ?? source.title;
  const sized = overAll === undefined ? undefined : sizeWords(source, overAll);
  return {
    head,
    title,
    sizes:
      overAll === undefined || sized === undefined
        ? []
        : [
            [capital(sized.along.noun), size(overAll.x)],
            ...(sized.across === sized.along
              ? []
              : [[capital(sized.across.noun), size(overAll.y)] as const]),
            [capital(sized.up.noun), size(overAll.z)],
          ],
    wood: shown('species') ?? (woods.join(', ') || undefined),
    isSolid: materials.some(({ mass }) => mass !== undefined),
    isCase: isCase(source),
    isDoor: overAll !== undefined && isThin(overAll),
    panel: panelOf(source),
    weight: weightOf(materials, units),
    ...figures,
    travel: (own) => travelText(source, own),
    picture: (wide, high) => {
      const panel = { width: wide / UNIT, height: high / UNIT };
      const svg = shadedForPrint(source, { format, panel });
      return svg === undefined ? undefined : plainDrawing(svg, title);
    },
    views: () => {
      const page = { width: 180, height: 90 };
      const { svg } = drawViews(source, { views: ['plan', 'front', 'end'], format, page });
      return (['plan', 'front', 'end'] as const).flatMap((view) => {
        const one = svg[view];
        return one === undefined ? [] : [plainDrawing(one, `${title}, ${VIEWS[view]}`)];
      });
    },
  };
}

/** What amounts are made of: named cells as they show, their numbers, and money as it is written. */
export type FiguresSaid = Pick<Said, 'shown' | 'number' | 'fails' | 'money'>;

/** Reads those alone, for who asks for a price and draws nothing. */
export function figuresSaid(
  source: Pick<OpenWorkbook, 'named' | 'units' | 'currency'>,
): FiguresSaid {
  const { units, currency } = source;
  return {
    shown: (name) => {
      const cell = source.named(name);
      if (cell === undefined) return undefined;
      if (cell.value.kind === 'number') return withUnit(cell.shown.text, cell.unit);
      return cell.value.kind === 'text' ? cell.value.text.trim() || undefined : undefined;
    },
    number: (name) => {
      const value = source.named(name)?.value;
      return value?.kind === 'number' ? value.number : undefined;
    },
    fails: (name) => source.named(name)?.value.kind === 'error',
    money: (amount) => {
      const context = { quantity: 'money', system: units, currency } as const;
      const { text } = showValue({ kind: 'number', number: amount }, context);
      const read = readEntry(text, context);
      const isRead = read.kind === 'value' && typeof read.value === 'number';
      return { text, amount: isRead ? Number(read.value) : amount };
    },
  };
}

const VIEWS = { plan: 'top view', front: 'front view', end: 'end view' } as const;

function panelOf(source: GuideSource): PanelWord {
  if (source.named('seat_width') !== undefined) return 'seat';
  return source.named('panel_width') === undefined ? 'top' : 'panel';
}

function weightOf(
  materials: readonly { readonly mass?: number | undefined }[],
  units: 'us' | 'metric',
): string | undefined {
  let kg = 0;
  for (const { mass } of materials) {
    if (mass === undefined) return undefined;
    kg += mass;
  }
  const own = units === 'us' ? kg / KG_A_POUND : kg;
  if (own < 1) return undefined;
  // A customer lifts it or does not: to the nearest five from twenty on.
  return `${own < 20 ? Math.round(own) : Math.round(own / 5) * 5} ${units === 'us' ? 'lb' : 'kg'}`;
}

/** Inches to the nearest 1/32, said to be about that where they are not quite; metric to half a millimeter. */
function travelText({ units, currency }: GuideSource, own: number): string {
  const much = Math.abs(own);
  const [step, unit] = units === 'us' ? [1 / 32, 'in'] : [0.5, 'mm'];
  if (much < step / 2) return `less than ${units === 'us' ? '1/32 in' : '0.5 mm'}`;
  const near = Math.round(much / step) * step;
  const show = units === 'us' ? ({ as: 'fraction', denominator: 32 } as const) : undefined;
  const { text } = showValue(
    { kind: 'number', number: near },
    { quantity: 'length', system: units, currency, ...(show === undefined ? {} : { show }) },
  );
  return `${Math.abs(near - much) < 1e-6 ? '' : 'about '}${withUnit(text, unit)}`;
}
