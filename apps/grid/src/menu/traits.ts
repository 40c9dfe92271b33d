import { BACKGROUNDS, QUANTITY_WORDS, quantityUnits, type Show } from '@kerfbook/workbook';

/** Choices as a maker reads them; the first leaves the matter open. */
export type Choices = readonly (readonly [value: string, says: string])[];

export const KINDS: Choices = [['', 'anything'], ...Object.entries(QUANTITY_WORDS)];

export const ROLES: Choices = [
  ['', 'plain cell'],
  ['input', 'input'],
  ['calculated', 'result'],
  ['heading', 'heading'],
  ['note', 'remark'],
];

export const STYLES: Choices = [
  ['', 'automatic'],
  ['fraction', 'fraction'],
  ['feet-inches', 'feet and inches'],
  ['decimal', 'decimals'],
  ['plain', 'all digits'],
];

export const ALIGNS: Choices = [
  ['', 'automatic'],
  ['start', 'left'],
  ['centre', 'center'],
  ['end', 'right'],
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
    : [['', 'automatic'], ...units.map((unit) => [unit, unit] as const)];
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
