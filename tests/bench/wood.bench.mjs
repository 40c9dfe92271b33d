import { boardFeet, emc, movement } from '@kerfbook/wood';
import { Calculator, tokensOf } from '@kerfbook/workbook/hyperformula';

/**
 * How often a function can be asked in a second: by itself, and through a cell whose formula calls
 * it, beside cells with a sum of as many terms.
 */

const BATCH = 20_000;
const ROWS = 2_000;
const ROUNDS = 7;

/**
 * The function with arguments that change from call to call, so that nothing can be remembered, and
 * a formula of the same with the first argument in A1.
 * @type {readonly (readonly [name: string, call: (i: number) => number, formula: string])[]}
 */
const CASES = [
  ['EMC', (i) => emc(60 + (i % 400) / 20, 20 + (i % 977) / 20), '=EMC(A$1,45)'],
  [
    'MOVEMENT',
    (i) => movement(20 + (i % 500) / 20, 'white oak', 5 + (i % 60) / 20, 9, 'flat'),
    '=MOVEMENT(A$1,"white oak",5,9,"flat")',
  ],
  [
    'BOARDFEET',
    (i) => boardFeet(1 + (i % 16) / 8, 4 + (i % 97) / 16, 96, 1 + (i % 9)),
    '=BOARDFEET(A$1,7,96,3)',
  ],
];

/** @param {number[]} numbers */
const middle = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

/** @param {() => void} run */
function rate(run) {
  const start = performance.now();
  run();
  return (BATCH * 1000) / (performance.now() - start);
}

/** @param {(i: number) => number} call */
function direct(call) {
  let sum = 0;
  const calls = rate(() => {
    for (let i = 0; i < BATCH; i += 1) sum += call(i);
  });
  if (!Number.isFinite(sum)) throw new Error('a call gave no number');
  return calls;
}

/**
 * Cells a second that are worked out anew when the one cell they all use changes.
 * @param {string} formula
 */
function throughCells(formula) {
  // Within what each function takes: an error costs more than an answer.
  const told = { formula: tokensOf(formula) };
  const cells = Array.from({ length: ROWS }, (_, row) => [row === 0 ? 60 : null, told]);
  const calculator = Calculator.build({
    system: 'us',
    sheets: [{ id: 's1', name: 'Sheet', cells }],
    names: [],
  });
  const change = (/** @type {number} */ i) =>
    calculator.setCells([{ sheet: 's1', row: 0, column: 0, content: 60 + (i % 9) }]);
  change(1);
  const times = rate(() => {
    for (let i = 2; i < 2 + BATCH / ROWS; i += 1) change(i);
  });
  calculator.destroy();
  return times;
}

const thousands = (/** @type {number} */ calls) =>
  `${Math.round(calls / 1000).toLocaleString('en-US')} thousand`;

for (const [name, call, formula] of CASES) {
  const terms = formula.split(',').length - 1;
  const plain = `=A$1${'+1'.repeat(terms)}`;
  /** @type {[number[], number[], number[]]} */
  const [alone, inCells, sums] = [[], [], []];
  for (let round = 0; round < ROUNDS; round += 1) {
    alone.push(direct(call));
    inCells.push(throughCells(formula));
    sums.push(throughCells(plain));
  }
  const [own, cell, sum] = [middle(alone), middle(inCells), middle(sums)];
  console.log(
    `${name.padEnd(10)} ${thousands(own)} calls a second by itself, ${thousands(cell)} through cells; ` +
      `the cell takes ${(100 * (1 - cell / own)).toFixed(0)} % of the time; ` +
      `${(cell / sum).toFixed(2)} of the rate of a sum (${thousands(sum)})`,
  );
}
