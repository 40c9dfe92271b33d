import { type BuiltStep, type Plan, plainText, readPlan } from '@kerfbook/guide';
import { SHOP_COLUMNS, type Workbook } from '@kerfbook/workbook';

/** What is never read in a plan: a hole where a number or a word should be, or an error. */
const HOLE = /[{}#…]|NaN|undefined|null|Infinity|\bTRUE\b|\bFALSE\b/;

/** What is wrong with a plan at one size. */
export function faultsOf(book: Workbook): readonly string[] {
  const plan = readPlan(book);
  return [
    ...plan.problems.map(({ at, says }) => `row ${at.row + 1}: ${says}`),
    ...plan.steps.flatMap((step) => holesIn(step)),
    ...plan.steps.flatMap((step) => numbersOff(book, step)),
    ...partsOff(plan),
  ];
}

const sentencesOf = ({ title, text, hardware, caution, tools, measures }: BuiltStep) => [
  plainText(title),
  ...text.map(plainText),
  ...hardware.map(plainText),
  ...(caution === undefined ? [] : [plainText(caution)]),
  ...tools,
  ...measures.flatMap(({ label, words }) => [label, words]),
];

function holesIn(step: BuiltStep): readonly string[] {
  const words = sentencesOf(step);
  const untold = step.text.length === 0 ? ['no text'] : [];
  const unended = step.text
    .map(plainText)
    .filter(
      (paragraph) => !/[.:!?]$/.test(paragraph) || /\s\s|\s[.,]|\.\.|^\s|\bin in\b/.test(paragraph),
    );
  return [
    ...untold,
    ...unended.map((paragraph) => `badly ended: ${paragraph}`),
    ...words.filter((one) => HOLE.test(one) || one.trim() === ''),
  ].map((says) => `step ${step.number}: ${says}`);
}

/** Which column each head of the steps table is over. */
export function columnsOf(book: Workbook): ReadonlyMap<string, number> {
  const [table] = book.tables().filter(({ kind }) => kind === 'steps');
  if (table === undefined) throw new Error('no steps');
  const { sheet, header } = table;
  const wide = book.sheet(sheet)?.columns ?? 0;
  const heads = Array.from({ length: wide }, (_, column): [string, number] => {
    const value = book.value({ sheet, row: header, column });
    return [value.kind === 'text' ? value.text : '', column];
  });
  const known = new Set(SHOP_COLUMNS.steps.map(({ heads: one }) => one));
  return new Map(heads.filter(([head]) => known.has(head)));
}

/** Sentences that are not the words of their cell with each number as the cell of its name shows it. */
function numbersOff(book: Workbook, step: BuiltStep): readonly string[] {
  const columns = columnsOf(book);
  const { sheet, row } = step.at;
  const raw = (head: string): string => {
    const column = columns.get(head);
    const value = column === undefined ? undefined : book.value({ sheet, row, column });
    return value?.kind === 'text' ? value.text : '';
  };
  const put = (words: string): string =>
    words.replaceAll(/\{([^{}]+)\}/g, (_, name: string) => {
      if (name === 'round') return String(step.round?.is ?? 1);
      if (name === 'rounds') return String(step.round?.of ?? 1);
      return shownOf(book, name);
    });
  const isAlike = (is: readonly string[], from: readonly string[]): boolean =>
    JSON.stringify(is) === JSON.stringify(from.map((one) => put(one).trim()).filter(Boolean));
  const paragraphs = raw('text').split('\n');
  const pairs: readonly (readonly [string, readonly string[], readonly string[]])[] = [
    ['step', [plainText(step.title)], [raw('step')]],
    ['text', step.text.map((one) => plainText(one).trim()), paragraphs],
    ['hardware', step.hardware.map(plainText), raw('hardware').split(',')],
    ['caution', step.caution === undefined ? [] : [plainText(step.caution)], [raw('caution')]],
    [
      'measure',
      step.measures.map(({ words }) => words),
      raw('measure')
        .split(',')
        .flatMap((one) => (one.trim() === '' ? [] : [shownOf(book, one.trim())])),
    ],
  ];
  return pairs.flatMap(([head, is, from]) =>
    isAlike(is, from)
      ? []
      : [`step ${step.number}, ${head}: ${JSON.stringify(is)} is not ${JSON.stringify(from)}`],
  );
}

/**
 * A named cell as a sentence has it: thousands apart, a space before its unit but for degrees and prices, loads as weights.
 * Millimeters are told to the half, from 20 on to the whole and under one to a tenth, but for what was typed in halves or
 * is a gap of a tenth and less; weights from 10 on in whole units, surfaces with three digits.
 */
function shownOf(book: Workbook, name: string): string {
  const cell = book.named(name);
  if (cell === undefined) return `(no ${name})`;
  const { text } = cell.shown;
  if (cell.value.kind !== 'number') return text;
  if (cell.unit === 'N') {
    const kg = cell.value.number / 9.80665;
    return `${(kg < 10 ? Math.round(kg * 10) / 10 : Math.round(kg)).toLocaleString('en-US')} kg`;
  }
  const isNeeded = cell.role === 'calculated';
  const told = toldOf(text, cell.unit, cell.value.number, isNeeded);
  const digits = /^(\D*)(\d{4,})(?=$|[ .])(.*)$/.exec(told);
  const apart =
    digits === null
      ? told
      : `${digits[1]}${Number(digits[2]).toLocaleString('en-US')}${digits[3] ?? ''}`;
  if (cell.unit === '') return apart;
  return `${apart}${cell.unit === '°' || cell.unit.startsWith('/') ? '' : ' '}${cell.unit}`;
}

function toldOf(text: string, unit: string, own: number, isNeeded: boolean): string {
  const shown = Number(text);
  if (text === '' || Number.isNaN(shown)) return text;
  if (unit === 'mm') {
    const mm = Math.abs(own - shown) < 0.06 ? own : shown;
    const isHalf = Math.abs(mm * 2 - Math.round(mm * 2)) < 2e-6;
    if (Math.abs(mm) < 0.1 || isHalf) return text;
    if (Math.abs(mm) < 1) {
      return Math.abs(mm * 100 - Math.round(mm * 100)) < 1e-4
        ? text
        : String(Math.round(mm * 10) / 10);
    }
    return String(Math.abs(mm) >= 20 ? Math.round(mm) : Math.round(mm * 2) / 2);
  }
  // Rounded once, from what the cell holds where it shows that and no other unit.
  const decimals = (text.split('.')[1] ?? '').length;
  const exact = own.toFixed(decimals) === shown.toFixed(decimals) ? own : shown;
  if (unit === 'kg' || unit === 'lb')
    return Math.abs(shown) < 10 ? text : String(Math.round(exact));
  // Whole cans are counted of it: from ten on upward, so that both agree.
  if ((unit === 'fl oz' || unit === 'mL') && isNeeded && shown >= 10)
    return String(Math.ceil(Math.round(own * 1e6) / 1e6));
  if (unit !== 'm²' && unit !== 'ft²') return text;
  const places = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(exact) || 1)));
  return String(Number(exact.toFixed(places)));
}

/** Parts that are not built exactly once, counted over the steps and not asked of the plan. */
function partsOff({ steps, parts }: Plan): readonly string[] {
  const built = steps.flatMap((step) => step.parts);
  return [
    ...parts.parts.flatMap((part) => {
      const often = built.filter((one) => one === part).length;
      return often === 1 ? [] : [`${part.name} is built ${often} times`];
    }),
    ...steps.flatMap(({ number, parts: of, builds }) =>
      builds.length > 0 && of.length === 0 && parts.parts.length === 0
        ? [`step ${number} builds nothing`]
        : [],
    ),
  ];
}
