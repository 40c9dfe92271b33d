import type { CellView } from '@kerfbook/workbook';

/** What a cell holds, in a maker's word. */
const KIND_WORDS: Readonly<Record<NonNullable<CellView['quantity']>, string>> = {
  number: 'number',
  count: 'count',
  ratio: 'ratio',
  percent: 'percent',
  moisture: 'moisture content',
  humidity: 'relative humidity',
  length: 'length',
  area: 'area',
  volume: 'volume',
  liquid: 'liquid',
  boardfeet: 'board feet',
  mass: 'weight',
  temperature: 'temperature',
  angle: 'angle',
  force: 'force',
  pressure: 'pressure',
  load_per_length: 'load per length',
  coverage: 'coverage',
  movement_rate: 'movement for 1 % of moisture',
  money: 'money',
  money_per_boardfoot: 'price per board foot',
  money_per_hour: 'hourly rate',
  duration: 'hours',
  date: 'date',
  text: 'words',
  logical: 'yes or no',
};

/** Words that name their unit already. */
const NAMES_UNIT: ReadonlySet<CellView['quantity']> = new Set(['percent', 'duration', 'boardfeet']);

/** What a cell holds, with its unit: `length, in`, `percent`; undefined where that is not known. */
export function kindInWords({ quantity, unit }: CellView): string | undefined {
  if (quantity === undefined) return undefined;
  const word = KIND_WORDS[quantity];
  return unit === '' || NAMES_UNIT.has(quantity) ? word : `${word}, ${unit}`;
}
