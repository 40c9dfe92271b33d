import { type OpenWorkbook, showValue } from '@kerfbook/workbook';

/** An amount as the workbook writes money. */
export function moneyText({ units, currency }: OpenWorkbook, amount: number): string {
  return showValue(
    { kind: 'number', number: amount },
    { quantity: 'money', system: units, currency },
  ).text;
}
