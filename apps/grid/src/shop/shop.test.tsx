import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fastenerPlaces, glueGroups, glueRounds, type ShopPlan, shopPlan } from '@kerfbook/drawing';
import { clampCount, fastenerCount, glueStages } from '@kerfbook/wood';
import { KNOWN_NAMES, loadText, type Reader, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { setByPoint } from '../paper/after-point.tsx';
import type { Block } from '../paper/blocks.tsx';
import { buyingSheet as buyingList } from './buying-sheet.tsx';
import { cutListSheet } from './cut-list-sheet.tsx';
import { carefulOf, cuttingSheet as cuttingPlan, wasteSays } from './cutting-sheet.tsx';
import { drawingSheet } from './drawing-sheet.tsx';
import { fastenerSheet, textsWithRoom } from './fastener-sheet.tsx';
import { finishSheet } from './finish-sheet.tsx';
import { glueSheet } from './glue-sheet.tsx';
import { labelSheet } from './label-sheet.tsx';
import { tableBlocks, wholeTable } from './pieces.tsx';
import { rackSheet } from './rack-sheet.tsx';
import { aboutText, seasonsOf } from './words.ts';

type Source = Parameters<typeof buyingList>[0];
const buyingSheet = (book: Source, shop: ShopPlan) => buyingList(book, shop, true);
const cuttingSheet = (book: Source, shop: ShopPlan) => cuttingPlan(book, shop, true);

/** Width of the field of a page of A4 held upright, mm. */
const PORTRAIT = 184;

describe('rounds of gluing', () => {
  it('are as many as GLUE_STAGES says, and join everything', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 2, max: 6 }), (boards, at) => {
        const rounds = glueRounds(boards, at);
        expect(rounds).toHaveLength(glueStages(boards, at));
        expect(rounds.reduce((sum, { joints }) => sum + joints, 0)).toBe(boards - 1);
        expect(rounds.at(-1)?.after ?? 1).toBe(1);
      }),
    );
  });
});

describe('cautions at the saw', () => {
  it('are those of boards where boards are cut, and those of sheets where sheets are', () => {
    const [boards, sheets] = [
      { boards: [{}], panels: [] },
      { boards: [], panels: [{}] },
    ];
    const says = (groups: unknown): string =>
      carefulOf(groups as Parameters<typeof carefulOf>[0]).join(' ');
    expect(says([boards])).toMatch(/Crosscut before you rip/);
    expect(says([boards])).not.toMatch(/full sheet/);
    // A sheet is ripped first: the rule for boards would contradict the plan.
    expect(says([sheets])).not.toMatch(/Crosscut before you rip/);
    expect(says([sheets])).toMatch(/full sheet takes two/);
    expect(says([boards, sheets])).toMatch(/Crosscut before you rip.*full sheet/);
  });
});

describe('places of fasteners', () => {
  it('are as many as FASTENER_COUNT says, no farther apart than allowed, and the same from both ends', () => {
    const rail = fc.record({
      length: fc.integer({ min: 10, max: 200 }),
      spacing: fc.integer({ min: 2, max: 30 }),
      end: fc.integer({ min: 0, max: 5 }),
    });
    fc.assert(
      fc.property(rail, ({ length, spacing, end }) => {
        const places = fastenerPlaces(length, spacing, end);
        expect(places).toHaveLength(fastenerCount(length, spacing, end));
        expect(clampCount(length, spacing, end)).toBe(places.length);
        for (const [i, place] of places.entries()) {
          expect(place + (places.at(-1 - i) ?? 0)).toBeCloseTo(length, 9);
          expect(place - (places[i - 1] ?? place)).toBeLessThanOrEqual(spacing + 1e-9);
        }
      }),
    );
  });
});

describe('texts beside each other', () => {
  it('never run into one another; the first and the last are there', () => {
    const text = fc.constantFrom('3', '16 1/4', '117 11/16');
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 60 }), (texts) => {
        const middles = texts.map((_, i) => 5 + (160 * i) / (texts.length - 1));
        const shown = textsWithRoom(middles, texts);
        expect([shown[0], shown.at(-1)]).toEqual([true, true]);
        const boxes = texts.flatMap((one, i) => {
          const [middle, half] = [middles[i] ?? 0, one.length * 0.8];
          return shown[i] === true ? [{ from: middle - half, to: middle + half }] : [];
        });
        for (const [i, { to }] of boxes.entries()) {
          expect(boxes[i + 1]?.from ?? Number.POSITIVE_INFINITY).toBeGreaterThan(to + 1);
        }
      }),
    );
    expect(textsWithRoom([10, 60, 110, 160], ['3', '42 3/4', '89', '132'])).not.toContain(false);
  });
});

describe('numbers of a column', () => {
  it('leave room for decimals they have not; fractions and words stay as they are', () => {
    const written = (column: readonly string[]): readonly string[] =>
      setByPoint(column).map((one) => renderToStaticMarkup(one));
    expect(
      written(['2159', '723.9', 'full length']).map((one) => /data-room="(.*?)"/.exec(one)?.[1]),
    ).toEqual(['.0', undefined, undefined]);
    expect(written(['3', '16 1/4', '29'])).toEqual(['3', '16 1/4', '29']);
  });
});

describe('sheets of the dining table', () => {
  const open = (): Workbook => {
    const file = join(import.meta.dirname, '../../../../templates/dining-table.json');
    const loaded = loadText(readFileSync(file, 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    return Workbook.open(loaded.document);
  };
  const keys = (blocks: readonly { readonly key: string }[] | undefined) =>
    (blocks ?? []).map(({ key }) => key);

  /** A workbook after something was typed into a named cell, or below a head of a table's row. */
  const after = (book: Workbook, name: string, text: string): Workbook => {
    const at = book.find(name);
    if (at === undefined) throw new Error(`the template has no ${name}`);
    const { sheet, row, column } = at;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    return book;
  };
  const textOf = (blocks: readonly Block[] | undefined): string =>
    renderToStaticMarkup((blocks ?? []).map(({ key, node }) => <div key={key}>{node}</div>))
      .replaceAll(/<[^>]+>/g, ' ')
      .replaceAll('&#x27;', "'")
      .replaceAll(/\s+/g, ' ');

  it('read by name what the table of names says of each, and nothing else', () => {
    const asked = (read: (book: Workbook) => unknown): readonly string[] => {
      const names = new Set<string>();
      const book = open();
      const named = book.named.bind(book);
      book.named = (name) => {
        names.add(name);
        return named(name);
      };
      read(book);
      return [...names].sort();
    };
    const said = (reader: Reader): readonly string[] =>
      KNOWN_NAMES[reader].names.map(({ name }) => name).sort();
    const shop = shopPlan(open());
    expect(asked((book) => shopPlan(book))).toEqual(said('cutting-plan'));
    expect(asked((book) => drawingSheet(book))).toEqual(said('drawing'));
    // Prices can be old on a day alone.
    expect(asked((book) => buyingList(book, shop, true, false, '2027-06-01'))).toEqual(
      said('buying-list'),
    );
    expect(asked((book) => rackSheet(book, shop))).toEqual(said('rack'));
    expect(asked((book) => glueSheet(book, shop))).toEqual(said('glue-up'));
    expect(asked((book) => fastenerSheet(book))).toEqual(said('fasteners'));
    expect(asked((book) => finishSheet(book))).toEqual(said('finish'));
    for (const none of [cutListSheet, cuttingSheet, labelSheet]) {
      expect(asked((book) => none(book, shop, PORTRAIT))).toEqual([]);
    }
  });

  it('say what holds the top and the base, with kinds, lengths and counts', () => {
    const book = open();
    const buying = (): string => textOf(buyingSheet(book, shopPlan(book)));
    // Counted from the apron lengths by hand: 59 in and 29 in clear, 3 in from the legs, 16 in apart at most.
    expect(buying()).toContain('Buttons for the top, with screws 10 ');
    expect(buying()).toContain('Figure-8s for the top, with screws 6 ');
    // Two in both ends of four aprons and two supports.
    expect(buying()).toContain('Pocket screws, 2 1/2 in long 24 ');
    expect(textOf(fastenerSheet(book))).toContain('Pocket screws, 2 1/2 in long, in the base 24');
    after(book, 'tenon_length', '1');
    // Tenons hold the aprons, and screws go on holding the supports.
    expect(buying()).toContain('Pocket screws, 2 1/2 in long 8 ');
    expect(textOf(fastenerSheet(book))).toContain('Pocket screws, 2 1/2 in long, in the base 8');
    after(book, 'support_gap', '60');
    expect(buying()).not.toContain('Pocket');
    expect(textOf(fastenerSheet(book))).not.toContain('Pocket');
    // Overridden, the kinds no longer come to the count: then only that is said.
    after(book, 'fastener_count', '20');
    expect(buying()).toContain('Top fasteners, with screws 20 ');
    expect(buying()).not.toContain('Buttons');
  });

  it('name the finish and the can to buy', () => {
    const book = open();
    expect(textOf(buyingSheet(book, shopPlan(book)))).toContain(
      'Wiping varnish, cans, 32 fl oz each 4 ',
    );
    const sheet = textOf(finishSheet(book));
    expect(sheet).toContain('Finish: wiping varnish');
    expect(sheet).toContain('Coat 1 of wiping varnish, all faces and edges alike');
    expect(sheet).toContain('Cans 4 of 32 fl oz');
    after(book, 'finish', '');
    expect(textOf(finishSheet(book))).toContain('Coat 1, all faces and edges alike');
    expect(textOf(buyingSheet(book, shopPlan(book)))).toContain('Cans of finish, 32 fl oz each 4 ');
  });

  it('give what the finish is reckoned from, so that it can be done again on paper', () => {
    const sheet = textOf(finishSheet(open()));
    const [, area, coats, more, coverage, loss] =
      /Finish needed: ([\d.]+) ft² times (\d+) coats, the first one taking ([\d.]+) % more, at ([\d.]+) ft²\/gal; of what is bought, ([\d.]+) % is lost/.exec(
        sheet,
      ) ?? [];
    const gallons =
      (Number(area) * (Number(coats) + Number(more) / 100)) /
      Number(coverage) /
      (1 - Number(loss) / 100);
    const needed = Number(/Finish needed ([\d.]+) fl oz/.exec(sheet)?.[1]);
    // 128 fl oz to the gallon; the area is rounded to a tenth of a square foot.
    expect(Math.abs(gallons * 128 - needed)).toBeLessThan(0.2);
    // Three coats, 12 h after each: what the steps say adds up to what is said of all.
    expect(sheet).toContain('Waiting after coats, without curing 36 h');
    expect(sheet).toContain('12 h, then let it cure');
  });

  it('clamp a joint as long and as thick as the glue-up sheet says it is', () => {
    const text = textOf(glueSheet(open(), shopPlan(open())));
    expect(text).toContain('boards 5 5/16 wide and 85 long');
    expect(text).toContain('Length of each joint, before trimming 85 in');
    expect(text).toContain('Thickness at glue-up, planed 1 3/4 in');
    const [, pressure] = /Pressure on the glue line ([\d.]+) psi/.exec(text) ?? [];
    const [, force] = /Force on one joint, all clamps together ([\d.,]+) lb/.exec(text) ?? [];
    expect(Number(force?.replaceAll(',', ''))).toBeCloseTo(85 * 1.75 * Number(pressure), -1);
  });

  it('tell apart what is left of the length and what goes in cuts and ends', () => {
    const { plan } = shopPlan(open());
    for (const group of plan?.groups ?? []) {
      if (group.boards.length === 0) continue;
      const [none, left, cuts] = [...wasteSays(group).matchAll(/(\d+) %/g)].map(([, share]) =>
        Number(share),
      ) as [number, number, number];
      expect(left + cuts).toBe(none);
      const bought = group.boards.reduce((sum, { stock }) => sum + stock.length, 0);
      const offcuts = group.boards.reduce((sum, { offcut }) => sum + offcut, 0);
      expect(Math.abs(left - (100 * offcuts) / bought)).toBeLessThanOrEqual(1);
      expect(cuts).toBeGreaterThan(0);
    }
  });

  it('say so where prices do not add up as they are written', () => {
    const priced = (price: string) => {
      const book = open();
      const stock = book.sheets().find(({ name }) => name === 'Stock')?.id ?? '';
      const cells = [3, 4, 5, 6, 7].map((row) => ({ row, column: 5, text: price }));
      const done = book.apply({ do: 'enter', sheet: stock, cells });
      if (!done.ok) throw new Error(done.says);
      return textOf(buyingSheet(book, shopPlan(book)));
    };
    expect(priced('40')).not.toContain('may differ in its last digit');
    expect(priced('40.004')).toContain('may differ in its last digit');
  });

  it('have room for the boxes of five boards that are alike in one line', () => {
    const [row] = tableBlocks('t', 'Steps', [{ heads: 'No.', share: 80 }], [[1]], [5]);
    const share = /width:([\d.]+)%/.exec(renderToStaticMarkup(row?.table?.columns))?.[1];
    // A box is 4 mm and stands 1 mm from the next (shop.css), in a field 178 mm wide less the edges of the cell.
    expect((Number(share) / 100) * 178).toBeGreaterThan(5 * 5 + 4);
  });

  it('ask for the kerf where it is blank, and prove nothing without it', () => {
    const book = open();
    expect(textOf(cuttingSheet(book, shopPlan(book)))).toContain('proven');
    after(book, 'kerf', '');
    const shop = shopPlan(book);
    for (const sheet of [cuttingSheet(book, shop), buyingSheet(book, shop)]) {
      expect(textOf(sheet)).toMatch(/How wide is your saw's kerf\? Type it in \S+!B\d+\./);
      expect(textOf(sheet)).not.toContain('proven');
    }
  });

  it('name at the top what got no board, and never say proven in all', () => {
    const book = after(open(), 'top_length', '160');
    const shop = shopPlan(book);
    for (const sheet of [
      buyingSheet(book, shop),
      cuttingSheet(book, shop),
      cutListSheet(book, shop),
    ]) {
      const [, box] = sheet;
      expect(textOf(box === undefined ? [] : [box])).toMatch(
        /Top, board, 8 pieces \(\S+!A\d+\): Top, board is 161 long; the longest board/,
      );
    }
    expect(textOf(buyingSheet(book, shop))).toContain('this is not what all of it costs');
    expect(textOf(buyingSheet(book, shop))).not.toContain('proven');
  });

  it('are there to say so where every part is left out', () => {
    const book = after(open(), 'top_length', '900');
    const { unread, ...shop } = shopPlan(book);
    const none = {
      ...shop,
      unread,
      plan: { groups: [], cost: 0, bound: 0, proven: false, problems: [] },
    };
    expect(textOf(cuttingSheet(book, none))).toContain('Cutting plan');
    expect(textOf(buyingSheet(book, none))).not.toContain('proven');
  });

  it('name each thing that is left out on the cut list, and the first of many on the others', () => {
    const book = open();
    const shop = shopPlan(book);
    const at = shop.list.items[0]?.at ?? { sheet: '', row: 0, column: 0 };
    const unread = Array.from({ length: 140 }, (_, i) => ({
      at: { ...at, row: i },
      what: `Drawer front ${i + 1}`,
      says: 'It stands below the table.',
    }));
    const without = { ...shop, unread };
    const count = (blocks: readonly Block[]): number =>
      textOf(blocks).match(/Drawer front \d+/g)?.length ?? 0;
    expect(count(cutListSheet(book, without))).toBe(140);
    for (const blocks of [buyingSheet(book, without), labelSheet(book, without, PORTRAIT)]) {
      expect(count(blocks)).toBe(8);
      expect(textOf(blocks)).toContain('And 132 more; the cut list names each.');
    }
  });

  it('name the rows that cannot be read, on the sheets and on the labels', () => {
    const book = open();
    const table = book.tables().find(({ kind }) => kind === 'parts');
    const [part] = shopPlan(book).parts;
    if (table === undefined || part === undefined) throw new Error('the template has parts');
    const { sheet, row, column } = part.countAt;
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '=1/0' }] });
    const shop = shopPlan(book);
    for (const blocks of [
      cutListSheet(book, shop),
      buyingSheet(book, shop),
      cuttingSheet(book, shop),
      labelSheet(book, shop, PORTRAIT),
    ]) {
      expect(textOf(blocks)).toMatch(
        new RegExp(
          `${part.name} \\(\\S+!\\w+\\): The count of ${part.name} is in error \\(#DIV/0!\\)`,
        ),
      );
    }
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '0' }] });
    expect(textOf(cutListSheet(book, shopPlan(book)))).toContain(
      `None wanted (count 0): ${part.name}.`,
    );
  });

  it('give the groove that tongues reach into with its sizes, where there are any', () => {
    const book = open();
    after(book, 'tongue_length', '7/8');
    const text = textOf(fastenerSheet(book));
    for (const line of [
      'Groove in the aprons, from their upper edge 1/2',
      'Width of the groove 3/8',
      'Depth of the groove 3/4',
      'Tongue of a button or clip, shoulder to tip 7/8',
      'Gap at its shoulder on the day it is built 1/4',
    ])
      expect(text).toContain(line);
    expect(text).toContain('Stop a groove short of tenons and mortises');
    // Figure-8s on all four aprons need none.
    after(book, 'fastener_long', 'figure-8');
    const without = textOf(fastenerSheet(book));
    expect(without).not.toMatch(/groove|tongue|shoulder/i);
    expect(without).toContain('Screw into the top');
  });

  it('show on the fastener sheet which way each one points and what it has to travel', () => {
    const book = open();
    const svg = (which: Workbook) =>
      renderToStaticMarkup(
        (fastenerSheet(which) ?? []).map(({ key, node }) => <div key={key}>{node}</div>),
      );
    const text = textOf(fastenerSheet(book));
    expect(text).toContain('At each place: button, square to the apron. The top moves square to');
    expect(text).toContain('At each place: figure-8, square to the apron. The top moves along');
    expect(svg(book).match(/data-points="square to the apron"/g)).toHaveLength(5 + 3);
    expect(svg(book).match(/data-moves="(square|along)"/g)).toEqual([
      'data-moves="square"',
      'data-moves="along"',
    ]);
    // 0.0906 in at the ends of a short apron (worked out by hand in tests/reference), none in its middle
    expect(text).toMatch(/3\/32 or more .* none needed .* 3\/32 or more/);
    after(book, 'points_short', 'along the apron');
    expect(svg(book).match(/data-points="along the apron"/g)).toHaveLength(3);
    after(book, 'fastener_short', 'slotted screw');
    expect(textOf(fastenerSheet(book))).toContain('At each place: slotted screw, along the apron.');
  });

  it('keep a heading, and what is said under it, on the page of the table or figure that it heads', () => {
    const book = open();
    const shop = shopPlan(book);
    const sheets = [
      drawingSheet(book),
      cutListSheet(book, shop),
      buyingSheet(book, shop),
      cuttingSheet(book, shop),
      glueSheet(book, shop),
      fastenerSheet(book),
      finishSheet(book),
      labelSheet(book, shop, PORTRAIT),
    ];
    let seen = 0;
    for (const blocks of sheets) {
      if (blocks === undefined) throw new Error('the template has every sheet');
      let heads = false;
      for (const { key, table, keep, together, node } of blocks) {
        const shown = renderToStaticMarkup(node);
        if (/<h[23]/.test(shown)) heads = true;
        const isWords = table === undefined && /<h[23]|<p |shop-caution/.test(shown);
        if (heads && isWords && !/<svg|<dl|label-row/.test(shown)) {
          // A caution may be read on the page before, where that were nearly empty without it.
          expect(shown.includes('shop-caution') ? together : keep, key).toBe(true);
          seen += 1;
        } else heads = false;
      }
    }
    expect(seen).toBeGreaterThan(20);
  });

  it('keep the rows of each apron on one page with their heading, and break a table too long for that', () => {
    const blocks = fastenerSheet(open()) ?? [];
    const tables = new Map<string, Block[]>();
    for (const block of blocks) {
      if (!block.table?.id.startsWith('fasteners Along')) continue;
      tables.set(block.table.id, [...(tables.get(block.table.id) ?? []), block]);
    }
    expect([...tables.values()].map((rows) => rows.length)).toEqual([5, 3]);
    for (const rows of tables.values()) {
      expect(rows.slice(0, -1).every(({ together }) => together === true)).toBe(true);
    }
    const rows = (count: number) =>
      wholeTable('rows', 'Rows', [{ heads: 'No.', share: 90 }], Array(count).fill(['1']));
    const free = (count: number) => rows(count).filter(({ together }) => together !== true).length;
    expect([1, 4, 12].map(free)).toEqual([1, 1, 1]);
    expect(free(13)).toBe(13);
  });

  it('count clamps for a joint by spacing and for the full pressure, and say when which will do', () => {
    const text = textOf(glueSheet(open(), shopPlan(open())));
    expect(clampCount(85, 12, 3)).toBe(8);
    // Boards of 8/4 are 1 3/4 in thick when they are glued.
    expect(clampCount(85, 12, 3, 85 * 1.75 * 150, 1000)).toBe(23);
    expect(text).toMatch(/Clamps for one joint, by spacing ?8/);
    expect(text).toMatch(/Clamps for one joint, at full pressure ?23/);
    expect(text).toContain('Where the edges close in the dry fit, space the clamps as listed.');
  });

  it.each([
    [0.17, 'about 5/32'],
    [0.136, 'about 1/8'],
    [0.375, '3/8'],
    [1.03125, '1 1/32'],
    [0.01, 'less than 1/32'],
  ])('write what the seasons do in fractions: %d', (inches, says) => {
    expect(aboutText(open(), inches)).toBe(says);
    const moves = after(
      after(open(), 'movement_from_build_dry', `${-inches}`),
      'movement_from_build_humid',
      `${inches}`,
    );
    expect(seasonsOf(moves)?.format?.(inches * 25.4)).toBe(says);
  });

  it('say of each round which boards it joins and how long it sets', () => {
    expect(glueGroups(7, 2)).toEqual([
      '1 and 2, 3 and 4, 5 and 6',
      '1–2 and 3–4, 5–6 and 7',
      '1–4 and 5–7',
    ]);
    expect(glueGroups(5, 3)).toEqual(['1 and 2 and 3, 4 and 5', '1–3 and 4–5']);
    expect(glueGroups(1, 2)).toEqual([]);
    expect(textOf(glueSheet(open(), shopPlan(open())))).toContain('1 and 2, 3 and 4');
    const timeless = after(open(), 'glue_wait', '');
    expect(textOf(glueSheet(timeless, shopPlan(timeless)))).toContain('as long as the bottle says');
  });

  it('say on the fastener sheet what a rail in error rests on', () => {
    const book = after(open(), 'fastener_spacing', '=1/0');
    expect(textOf(fastenerSheet(book))).toMatch(/fastener_spacing \(\S+!B\d+\): #DIV\/0!/);
  });

  it.each([
    ['40', /The cell coats is in error: .*1 to 12/],
    ['=10*4', /The cell coats says 40; this sheet lists up to 12/],
  ])('say so instead of listing coats beyond reason: %s', (text, says) => {
    const book = open();
    expect(keys(finishSheet(book))).not.toContain('finish coats');
    const sheet = finishSheet(after(book, 'coats', text));
    expect(keys(sheet)).toEqual(['finish', 'finish coats']);
    expect(textOf(sheet)).toMatch(says);
  });

  it('say how many pieces get no label', () => {
    const shop = shopPlan(open());
    const items = shop.list.items.map((item) => ({ ...item, count: 400 }));
    const many = { ...shop, list: { ...shop.list, items } };
    expect(keys(labelSheet(open(), shop, PORTRAIT))).not.toContain('labels left out');
    const found = keys(labelSheet(open(), many, PORTRAIT));
    expect(found).toContain('labels left out');
    expect(found).toHaveLength(2 + 600 / 3);
    // A page of Letter that lies on its side has room for four beside each other.
    expect(keys(labelSheet(open(), many, 253.4))).toHaveLength(2 + 600 / 4);
  });

  it('say on the label of each piece which board it comes from, as many as the plan cuts from it', () => {
    const book = open();
    const shop = shopPlan(book);
    const said = new Map<string, number>();
    for (const [, where = ''] of textOf(labelSheet(book, shop, PORTRAIT)).matchAll(
      /from ((?:board|sheet) \d+ of \d+)/g,
    )) {
      said.set(where, (said.get(where) ?? 0) + 1);
    }
    const planned = new Map<string, number>();
    for (const { boards } of shop.plan?.groups ?? []) {
      boards.forEach(({ pieces }, i) => {
        const where = `board ${i + 1} of ${boards.length}`;
        const count = pieces.reduce((sum, { strips }) => sum + strips, 0);
        planned.set(where, (planned.get(where) ?? 0) + count);
      });
    }
    expect(planned.size).toBeGreaterThan(4);
    expect(said).toEqual(planned);
    // Without a plan a label names no board.
    const none = textOf(labelSheet(book, { list: shop.list, unread: shop.unread }, PORTRAIT));
    expect(none).not.toContain('from board');
  });

  it('count board feet of boards and not of sheets, which are sold by the sheet', () => {
    const file = join(import.meta.dirname, '../../../../templates/plywood-cabinet.json');
    const loaded = loadText(readFileSync(file, 'utf8'));
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    const sums = textOf(cutListSheet(book, shopPlan(book)))
      .split('By material')
      .at(-1);
    // 12 pieces and the area of their faces.
    expect(sums?.trim()).toMatch(/^hardwood plywood 12 \d\d\.\d$/);
  });

  it('call what is fastened and finished by what the furniture has: a seat or a top', () => {
    const said = (file: string): string => {
      const loaded = loadText(
        readFileSync(join(import.meta.dirname, '../../../../templates', file), 'utf8'),
      );
      if (!loaded.ok) throw new Error(loaded.says);
      const book = Workbook.open(loaded.document);
      return textOf([
        ...buyingSheet(book, shopPlan(book)),
        ...(fastenerSheet(book) ?? []),
        ...(finishSheet(book) ?? []),
      ]);
    };
    const bench = said('bench.json');
    expect(bench).toContain('for the seat, with screws');
    expect(bench).toContain('Seat fasteners');
    expect(bench).toContain('Both faces of the seat get the same coats');
    expect(bench).toContain('The seat moves square to this apron.');
    expect(bench).not.toMatch(/\b[Tt]op\b/);
    expect(said('coffee-table.json')).toContain('for the top, with screws');
    expect(said('bookcase.json')).toContain('Both faces of a panel get the same coats');
  });
});
