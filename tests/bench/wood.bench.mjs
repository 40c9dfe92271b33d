// How often a function can be asked in a second: by itself, and through a cell that uses it.
import { FUNCTIONS } from '@kerfbook/wood';
import { Calculator } from '@kerfbook/workbook';

const BATCH = 20_000;
const ROUNDS = 7;

/** Each with arguments that change from call to call, so that nothing can be remembered. */
const CASES = [
  ['EMC', (i) => [60 + (i % 400) / 20, 20 + (i % 977) / 20]],
  ['MOVEMENT', (i) => [20 + (i % 500) / 20, 'white oak', 5 + (i % 60) / 20, 9, 'flat']],
  ['BOARDFEET', (i) => [1 + (i % 16) / 8, 4 + (i % 97) / 16, 96, 1 + (i % 9)]],
];

const middle = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

function timed(run) {
  const start = performance.now();
  run();
  return (performance.now() - start) / 1000;
}

/** Calls a second by themselves. */
function direct(run, args) {
  let sum = 0;
  const seconds = timed(() => {
    for (let i = 0; i < BATCH; i += 1) sum += run(...args(i));
  });
  if (!Number.isFinite(sum)) throw new Error('a call gave no number');
  return BATCH / seconds;
}

const literal = (value) => (typeof value === 'string' ? `"${value}"` : 'A1');

/** Cells a second that are worked out anew when the cell their first argument stands in changes. */
function throughCells(formula) {
  const rows = 2_000;
  const cells = Array.from({ length: rows }, () => [null, { formula }]);
  cells[0] = [60, { formula }];
  const calculator = Calculator.build({
    system: 'us',
    sheets: [{ id: 's1', name: 'Sheet', cells }],
    names: [],
  });
  const at = { sheet: 's1', row: 0, column: 0 };
  // Within what each function takes: an error costs more than an answer.
  const change = (i) => calculator.setCells([{ ...at, content: 60 + (i % 9) }]);
  change(0);
  const seconds = timed(() => {
    for (let i = 1; i <= BATCH / rows; i += 1) change(i);
  });
  calculator.destroy();
  return BATCH / seconds;
}

for (const [name, args] of CASES) {
  const description = FUNCTIONS.find((one) => one.name === name);
  const [, ...rest] = args(3);
  const others = rest.map((value) => (typeof value === 'string' ? literal(value) : value));
  const formula = `=${name}(A$1,${others.join(',')})`;
  const plain = `=A$1+${others.map((_, i) => i + 1).join('+')}`;
  const [alone, cell, bare] = [[], [], []];
  for (let round = 0; round < ROUNDS; round += 1) {
    alone.push(direct(description.run, args));
    cell.push(throughCells(formula));
    bare.push(throughCells(plain));
  }
  const [a, c, b] = [alone, cell, bare].map(middle);
  const share = 1 - c / a;
  console.log(
    `${name.padEnd(10)} ${round(a)} calls/s by itself, ${round(c)} cells/s in cells (a sum in cells: ${round(b)}); ` +
      `the cell is ${(100 * share).toFixed(0)} % of the time, ${(c / b).toFixed(2)} of a sum's rate`,
  );
}

function round(rate) {
  return `${Math.round(rate / 1000).toLocaleString('en-US')} thousand`;
}
