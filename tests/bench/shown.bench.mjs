import { showValue, unitShown } from '@kerfbook/workbook';

/**
 * What the cells of a screen show: a thousand numbers of every kind with their units, beside as many
 * numbers written by the language's own formatter.
 */

const CELLS = 1000;
const ROUNDS = 40;

/** @type {Pick<import('@kerfbook/workbook').ShowContext, 'system' | 'currency'>} */
const US = { system: 'us', currency: 'USD' };

/** @type {readonly import('@kerfbook/workbook').ShowContext[]} */
const CONTEXTS = [
  { ...US, quantity: 'length' },
  { ...US, quantity: 'length', show: { as: 'feet-inches', denominator: 32 } },
  { ...US, quantity: 'money' },
  { ...US, quantity: 'area' },
  { ...US, quantity: 'number', show: { as: 'fraction' } },
  { ...US, quantity: 'liquid', show: { unit: 'gal' } },
  { ...US, quantity: 'pressure' },
  { system: 'metric', currency: 'EUR', quantity: 'length', show: { decimals: 3 } },
  { ...US, quantity: 'date' },
];

const plain = new Intl.NumberFormat('en-US', { maximumFractionDigits: 3 });

/** @param {(i: number) => string} show */
function screenful(show) {
  let letters = 0;
  const start = performance.now();
  for (let i = 0; i < CELLS; i += 1) letters += show(i).length;
  const took = performance.now() - start;
  if (letters < CELLS) throw new Error('a cell shows nothing');
  return took;
}

/** @param {number[]} numbers */
const middle = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

/** @type {[number[], number[]]} */
const [ours, bare] = [[], []];
for (let round = 0; round < ROUNDS; round += 1) {
  ours.push(
    screenful((i) => {
      const context = CONTEXTS[i % CONTEXTS.length] ?? US;
      return (
        showValue({ kind: 'number', number: i * Math.SQRT2 }, context) + (unitShown(context) ?? '')
      );
    }),
  );
  bare.push(screenful((i) => plain.format(i * Math.SQRT2)));
}
const [a, b] = [middle(ours), middle(bare)];
console.log(
  `${CELLS} cells with their units: ${a.toFixed(2)} ms, ${(a / b).toFixed(2)} of the time of the plain formatter (${b.toFixed(2)} ms)`,
);
