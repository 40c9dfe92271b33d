import { quantityUnits, type Show } from '@kerfbook/workbook';

/** Choices as a maker reads them; the first leaves the matter open. */
export type Choices = readonly (readonly [value: string, says: string])[];

export const KINDS: Choices = [
  ['', 'anything'],
  ['number', 'a number'],
  ['count', 'a count'],
  ['length', 'a length'],
  ['area', 'an area'],
  ['volume', 'a volume'],
  ['boardfeet', 'board feet'],
  ['liquid', 'a liquid'],
  ['coverage', 'a coverage'],
  ['mass', 'a weight'],
  ['force', 'a force'],
  ['pressure', 'a pressure'],
  ['load_per_length', 'a load on a length'],
  ['temperature', 'a temperature'],
  ['humidity', 'a humidity'],
  ['moisture', 'a moisture content'],
  ['movement_rate', 'a movement rate'],
  ['angle', 'an angle'],
  ['ratio', 'a share, 0 to 1'],
  ['percent', 'a percentage'],
  ['money', 'money'],
  ['money_per_boardfoot', 'money a board foot'],
  ['money_per_hour', 'money an hour'],
  ['duration', 'hours'],
  ['date', 'a date'],
  ['text', 'words'],
  ['logical', 'yes or no'],
];

export const ROLES: Choices = [
  ['', 'nothing special'],
  ['input', 'an input'],
  ['calculated', 'a result'],
  ['heading', 'a heading'],
  ['note', 'a note'],
];

export const STYLES: Choices = [
  ['', 'as usual'],
  ['fraction', 'a fraction'],
  ['feet-inches', 'feet and inches'],
  ['decimal', 'decimals'],
  ['plain', 'all its digits'],
];

export const DENOMINATORS: Choices = [
  ['2', '1/2'],
  ['4', '1/4'],
  ['8', '1/8'],
  ['16', '1/16'],
  ['32', '1/32'],
  ['64', '1/64'],
];

/** Units a quantity may be shown in; the first is its own. */
export function unitChoices(quantity: string): Choices {
  const units = quantityUnits(quantity);
  return units.length === 0
    ? []
    : [['', 'its own unit'], ...units.map((unit) => [unit, unit] as const)];
}

export interface StyleText {
  readonly as: string;
  readonly unit: string;
  readonly denominator: string;
  readonly decimals: string;
}

export const styleOf = (show: Show | undefined): StyleText => ({
  as: show?.as ?? '',
  unit: show?.unit ?? '',
  denominator: String(show?.denominator ?? 16),
  decimals: show?.decimals === undefined ? '' : String(show.decimals),
});
