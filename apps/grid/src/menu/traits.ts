import { BACKGROUNDS, QUANTITY_WORDS, quantityUnits, type Show } from '@kerfbook/workbook';

/** Choices as a maker reads them; the first leaves the matter open. */
export type Choices = readonly (readonly [value: string, says: string])[];

export const KINDS: Choices = [['', 'anything'], ...Object.entries(QUANTITY_WORDS)];

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

export const ALIGNS: Choices = [
  ['', 'as usual'],
  ['start', 'at the left'],
  ['centre', 'in the middle'],
  ['end', 'at the right'],
];

export const FILL_CHOICES: Choices = [
  ['', 'plain'],
  ...BACKGROUNDS.map((one) => [one, one] as const),
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

interface StyleText {
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
