import { documentOf } from '@kerfbook/document/testing';
import { expect, it, vi } from 'vitest';
import type { CellValue } from '../api.ts';
import type { FromSweeper, ToSweeper } from './messages.ts';
import { AT_ONCE, serveSweeps } from './serve.ts';

// As in a page: the libraries come when they are asked for.
vi.mock('@kerfbook/functions/libraries', () => import('@kerfbook/functions/libraries-lazy'));

it('A5 V3 a sweep waits for what formulas need, wherever it is first needed', async () => {
  const document = documentOf({
    sheets: { Buy: [[10, '=IF(A1>18,TEXT(A1,"0.00"),"none")']] },
  });
  const told: FromSweeper[] = [];
  await new Promise<void>((resolve) => {
    let hear: (message: ToSweeper) => void = () => undefined;
    serveSweeps({
      send: (message) => {
        told.push(message as FromSweeper);
        if ((message as FromSweeper).say !== 'values') resolve();
      },
      hear: (listener) => {
        hear = listener;
      },
      turn: () => new Promise((next) => setImmediate(next)),
    });
    const [input, result] = [0, 1].map((column) => ({ sheet: 's1', row: 0, column }));
    if (input === undefined || result === undefined) throw new Error('two cells');
    const sets = Array.from({ length: 2 * AT_ONCE }, (_, i) => [10 + i]);
    hear({ say: 'open', document });
    hear({ say: 'sweep', sweep: 1, ask: { inputs: [input], results: [result], sets } });
  });
  const rows = told.flatMap((one): readonly (readonly CellValue[])[] =>
    one.say === 'values' ? one.rows : [],
  );
  expect(rows.flat()).toEqual(
    rows.map((_, i) => ({ kind: 'text', text: i > 8 ? `${10 + i}.00` : 'none' })),
  );
  expect(rows).toHaveLength(2 * AT_ONCE);
});
