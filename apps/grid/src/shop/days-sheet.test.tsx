import { readFileSync } from 'node:fs';
import { dayOfClock, likelihood, planBook, usualDaysSaid } from '@kerfbook/days';
import { loadText, Workbook } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { Flow } from '../paper/blocks.tsx';
import { daysSheet } from './days-sheet.tsx';

function template(name: string): Workbook {
  const loaded = loadText(
    readFileSync(new URL(`../../../../templates/${name}.json`, import.meta.url), 'utf8'),
  );
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** Rows of the tables as texts, cell by cell. */
function rowsOf(book: Workbook): readonly (readonly string[])[] {
  const html = renderToStaticMarkup(<Flow blocks={daysSheet(book, { width: 190 }) ?? []} />);
  return [...html.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = '']) =>
    [...row.matchAll(/<td[^>]*>(.*?)<\/td>/g)].map(([, cell = '']) =>
      cell.replaceAll(/<[^>]*>/g, '').trim(),
    ),
  );
}

describe('the days on paper', () => {
  it.each(['dining-table', 'desk', 'plywood-cabinet'])(
    'of %s have every hour of work once, and what is left alone',
    (name) => {
      const book = template(name);
      const { schedule } = planBook(book, { otherwise: 46_447 });
      const rows = rowsOf(book).filter((cells) => cells.length > 0);
      const hours = rows.map((cells) => Number(cells[4]?.replaceAll(/[^\d.]/g, '') || 0));
      const all = schedule?.placed.reduce((so, { operation }) => so + operation.handsOn, 0) ?? 0;
      // Each part of an operation is written to a hundredth of an hour.
      expect(Math.abs(hours.reduce((so, one) => so + one, 0) - all)).toBeLessThan(
        0.005 * rows.length,
      );
      for (const { operation } of schedule?.placed ?? []) {
        const waits = rows.some((cells) =>
          cells[3]?.includes(`${operation.name}: left alone until`),
        );
        expect(waits, operation.name).toBe(operation.waiting > 0);
      }
    },
  );

  it('say how likely the promised day is, and that it is not worked out where it is not', () => {
    const book = template('dining-table');
    const { schedule } = planBook(book, { otherwise: dayOfClock(new Date()) + 1 });
    if (schedule === undefined) throw new Error('no plan');
    const odds = likelihood(schedule, { draws: 500 });
    const says = (known?: Parameters<typeof daysSheet>[2]): string =>
      renderToStaticMarkup(
        <Flow blocks={daysSheet(book, { width: 190 }, known) ?? []} />,
      ).replaceAll(/<[^>]*>/g, ' ');
    expect(says()).toContain('How likely that day is is not worked out yet.');
    const [first] = odds;
    if (first === undefined) throw new Error('no odds');
    expect(says({ likelihood: odds })).toContain(`of 500 tries. ${usualDaysSaid(first)}`);
    expect(says({ failed: 'No memory.' })).toContain('No memory.');
  });

  it('are no sheet where a workbook has no operations', () => {
    expect(daysSheet(template('movement'), { width: 190 })).toBeUndefined();
  });
});
