import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { shopPlan } from '@kerfbook/drawing';
import { loadText, Workbook } from '@kerfbook/workbook';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { Block } from '../paper/blocks.tsx';
import { buyingSheet as buyingList } from './buying-sheet.tsx';
import { cuttingSheet as cuttingPlan } from './cutting-sheet.tsx';
import { fastenerSheet } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';

type Source = Parameters<typeof buyingList>[0];
type Plan = Parameters<typeof buyingList>[1];
const buyingSheet = (book: Source, shop: Plan) => buyingList(book, shop, true);
const cuttingSheet = (book: Source, shop: Plan) => cuttingPlan(book, shop, true);

function open(template = 'dining-table'): Workbook {
  const file = join(import.meta.dirname, `../../../../templates/${template}.json`);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** A workbook after something was typed into a named cell. */
function after(book: Workbook, name: string, text: string): Workbook {
  const at = book.find(name);
  if (at === undefined) throw new Error(`the template has no ${name}`);
  const { sheet, row, column } = at;
  book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  return book;
}

const textOf = (blocks: readonly Block[] | undefined): string =>
  renderToStaticMarkup((blocks ?? []).map(({ key, node }) => <div key={key}>{node}</div>))
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

/** The heads of its tables, each as it is read along. */
const headsOf = (blocks: readonly Block[]): ReadonlySet<string> =>
  new Set(
    blocks.flatMap(({ table }) =>
      table === undefined
        ? []
        : [
            renderToStaticMarkup(<table>{table.head}</table>)
              .replaceAll(/(<[^>]+>)+/g, ' ')
              .trim(),
          ],
    ),
  );

describe('lines of the shop sheets', () => {
  it('say where each pocket screw goes, where that comes to what the workbook counts', () => {
    const book = open();
    const said = (): string => textOf(fastenerSheet(book));
    // Clear of the groove in the aprons, which ends 7/8 in from the edge; every face by the name the joints page has for it.
    expect(said()).toContain(
      'Long apron, both both ends Leg inside face 1 1/8 and 2 3/8 from the top edge',
    );
    expect(said()).toContain(
      'Cross support, both both ends Long apron inside face 5/8 and 1 7/8 from the top edge',
    );
    expect(said()).not.toContain('bottom edge');
    expect(said()).toContain('Where pieces meet: see the Joints page.');
    after(book, 'pocket_screws_each', '3');
    expect(said()).toContain('1 1/8, 1 3/4 and 2 3/8 from the top edge');
    after(book, 'tenon_length', '1');
    expect(said()).toContain('Cross support, both both ends Long apron');
    expect(said()).not.toContain('both ends Leg');
    // Overridden, nobody knows which ends have them.
    after(book, 'pocket_screw_count', '10');
    expect(said()).toContain('Pocket screws, 2 1/2 in long, in the base 10');
    expect(said()).not.toContain('Where pocket screws go');
  });

  it('name what else there is to buy for each template', () => {
    const bought = (template: string): string => {
      const book = open(template);
      return textOf(buyingSheet(book, shopPlan(book)));
    };
    expect(bought('cabinet-door')).toMatch(/Hinges, with screws 4 /);
    expect(bought('plywood-cabinet')).toMatch(/Shelf pins 4 Edge banding, rolls 1 /);
    // As it ships its shelves are fixed, and it is fastened to the wall.
    expect(bought('bookcase')).not.toContain('Shelf pins');
    expect(bought('bookcase')).toMatch(/Wall anchors made to hold furniture 2 /);
    // Slides and pulls are bought; no line of boards says that they are there already.
    expect(bought('desk')).toMatch(/Drawer slides, 14 in long, pairs 2 Drawer pulls 2 /);
    expect(bought('desk')).not.toContain('at hand');
    expect(bought('dining-table')).toContain('at hand');
    expect(bought('round-table')).toMatch(/Threaded rod, with nuts and plates 28 3\/4 in /);
    const without = open('desk');
    after(without, 'pulls_each', '0');
    expect(textOf(buyingSheet(without, shopPlan(without)))).not.toContain('Drawer pulls');
    for (const template of ['desk', 'round-table', 'trestle-table']) {
      expect(bought(template)).toMatch(/ Screws into the top \d+ /);
    }
  });

  it('give lengths and widths to cut to, under heads that no place along a board is read into', () => {
    const book = open();
    const plan = cuttingSheet(book, shopPlan(book));
    expect([...headsOf(plan)]).toEqual(['Done No. Crosscut to Then rip to Gives']);
    expect(textOf(plan)).toMatch(/ 1 85 5 5\/16 Top, board /);
    const cabinet = open('plywood-cabinet');
    const sheets = headsOf(cuttingSheet(cabinet, shopPlan(cabinet)));
    expect([...sheets]).toContain('Done Cut How To Of the piece Gives');
  });

  it('set what fasteners travel beside what they have to where they stand, not beside what the edge moves', () => {
    const said = textOf(fastenerSheet(open()));
    expect(said).toMatch(
      /Travel each way, long aprons 1\/4 in Travel needed, long aprons \d+\/\d+ in Travel each way, short aprons 3\/8 in Travel needed, short aprons, at their ends \d+\/\d+ in Top moves each way at its edge 5\/32 in /,
    );
    // Damp boards: the edge moves further than a button at the apron has to, and both are told apart.
    const damp = open();
    after(damp, 'moisture_build', '12');
    const own = (name: string): number => {
      const value = damp.named(name)?.value;
      return value?.kind === 'number' ? value.number : Number.NaN;
    };
    expect(own('fastener_need')).toBeGreaterThan(own('fastener_need_long'));
    expect(textOf(fastenerSheet(damp))).toContain(
      `Top moves each way at its edge ${damp.named('fastener_need')?.shown.text} in`,
    );
    expect(textOf(fastenerSheet(damp))).not.toMatch(/needed[^,]* at the edge/);
    expect(textOf(fastenerSheet(open('bench')))).toContain('Seat moves each way at its edge');
  });

  it('say which parts are planed out of far thicker boards, and which thickness was typed as rough', () => {
    const book = open();
    const said = (): string => textOf(cuttingSheet(book, shopPlan(book, 'cell')));
    // As it ships 1 3/4 boards become 1 1/2: what planing takes.
    expect(said()).not.toMatch(/planed from|rough thickness/);
    after(book, 'apron_thickness', '3/4');
    expect(said()).toContain(
      'Long apron and Short apron are planed from 1 3/4 to 3/4. Resaw the boards, or add thinner ones to the stock table.',
    );
    expect(textOf(buyingSheet(book, shopPlan(book, 'cell')))).toContain('are planed from 1 3/4 to');
    // Half an inch more than a part is wasted too; what resawing leaves of it is no board.
    const trestle = open('trestle-table');
    expect(textOf(buyingSheet(trestle, shopPlan(trestle, 'cell')))).toContain(
      'Post (layers) are planed from 1 3/4 to 1 1/4. Add thinner boards to the stock table if you can buy them.',
    );
    const stock = book.tables().find(({ kind }) => kind === 'stock');
    if (stock === undefined) throw new Error('the template has a stock table');
    const { sheet, header } = stock;
    const rows = Array.from({ length: stock.last - header }, (_, i) => header + 1 + i);
    book.apply({ do: 'enter', sheet, cells: rows.map((row) => ({ row, column: 2, text: '8/4' })) });
    expect(said()).toMatch(
      /: 8\/4 is read as 2, the rough thickness\. With both faces planed it is usually 1 3\/4: type that/,
    );
    // One that is typed as it is planed has nothing said of it.
    const planed = rows.map((row) => ({ row, column: 2, text: '1 3/4' }));
    book.apply({ do: 'enter', sheet, cells: planed });
    expect(said()).not.toContain('rough thickness');
  });

  it.each(['bench', 'coffee-table', 'desk', 'bookcase', 'round-table'])(
    'say nothing of thickness of the %s as it ships',
    (template) => {
      const book = open(template);
      expect(textOf(buyingSheet(book, shopPlan(book, 'cell')))).not.toMatch(
        /planed from|rough thickness/,
      );
    },
  );

  it('put what is used as it is bought in one line', () => {
    const book = open('desk');
    const plan = textOf(cuttingSheet(book, shopPlan(book)));
    expect(plan).toContain('4 Slide, bought ready, 1 3/4 × 14 2 × Left slide, 2 × Right slide');
    expect(plan).not.toContain('of 4, cut the same way Slide');
    expect(plan).not.toMatch(/\$0\.00|0 % of the length becomes/);
    expect(textOf(finishSheet(book))).toMatch(/ Drawers [\d.]+ ft² All surfaces /);
  });

  it('list surfaces that there are, and nothing that is none', () => {
    const book = open();
    expect(textOf(finishSheet(book))).toMatch(/ Top [\d.]+ ft² Base [\d.]+ ft² All surfaces /);
    after(book, 'area_base', '0');
    const sheet = textOf(finishSheet(book));
    expect(sheet).toMatch(/ Top [\d.]+ ft² All surfaces /);
    expect(sheet).not.toContain('Base');
    after(book, 'finish_cans', '0');
    expect(textOf(buyingSheet(book, shopPlan(book)))).not.toContain('cans');
  });
});
