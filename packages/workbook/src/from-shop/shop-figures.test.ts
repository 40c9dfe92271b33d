import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type BookDocument, type Edit, saveText, Workbook } from '../index.ts';
import { enter, shipped, TEMPLATES, typed } from '../testdata/shipped.ts';
import { rackEdit } from './rack-edits.ts';
import { type ShopFigure, type ShopFigures, shopFigures } from './shop-figures.ts';
import { SHOP_NAMES } from './shop-names.ts';
import { ShopOffer } from './shop-offer.ts';
import { rowsAdded, takeFigures } from './take-figures.ts';

const keys = readdirSync(TEMPLATES)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length));

function compared(book: Workbook, shop: BookDocument): ShopFigures {
  const found = shopFigures(book, shop);
  if (!found.ok) throw new Error(found.says);
  return found;
}

/** Of those that differ, the ones that are told: boards on the rack are only shown. */
const told = (book: Workbook, shop: BookDocument): readonly ShopFigure[] =>
  compared(book, shop).figures.filter(({ tells }) => tells);

const numberAt = (book: Workbook, name: string): number => {
  const value = book.named(name)?.value;
  if (value?.kind !== 'number') throw new Error(`${name} is no number`);
  return value.number;
};

describe('figures of the shop', () => {
  it('H11 are shared by every workbook that ships, and what belongs to a piece of furniture is none of them', () => {
    const shop = shipped('dining-table');
    for (const key of keys) {
      const { shared } = compared(Workbook.open(shipped(key)), shop);
      const figures = told(Workbook.open(shipped(key)), shop);
      // A movement study and a base without boards have a saw cut or less in common with a shop.
      expect(shared, key).toBeGreaterThanOrEqual(key === 'movement' ? 0 : 3);
      // What a price comes to is shown rounded and with a tax; furniture is quoted without until its maker asks for it.
      const wanted =
        key === 'cost'
          ? ['cost: Round up to the next (B21) $10.00 $0.00', 'cost: Tax (B23) 8 % 0 %']
          : [];
      expect(figures.map(({ what, mine, shops }) => `${key}: ${what} ${mine} ${shops}`)).toEqual(
        wanted,
      );
    }
    for (const piece of [
      'top_length',
      'species',
      'cost_consumables',
      'quoted_price',
      'moisture_build',
    ]) {
      expect(SHOP_NAMES.has(piece)).toBe(false);
    }
  });

  it('H11 differ where the shop has another one, are taken as one step, and what rests on them follows', () => {
    const shop = typed(shipped('dining-table'), {
      hourly_rate: '60',
      kerf: '3/32',
      jointer_width: '8',
    });
    const book = Workbook.open(shipped('bench'));
    const before = { price: numberAt(book, 'price'), length: numberAt(book, 'seat_length') };
    const figures = told(book, shop);
    expect(
      figures.map(({ what, mine, shops }) => [what.replace(/ \(.*/, ''), mine, shops]),
    ).toEqual([
      ['Width of the jointer', '6 in', '8 in'],
      ['Saw kerf', '1/8 in', '3/32 in'],
      ['Hourly rate', '$45.00 /h', '$60.00 /h'],
    ]);
    const done = book.apply(takeFigures(book, figures));
    expect(done.ok).toBe(true);
    expect(numberAt(book, 'price')).toBeGreaterThan(before.price);
    expect(numberAt(book, 'seat_length')).toBe(before.length);
    expect(told(book, shop)).toEqual([]);
    book.undo();
    expect(numberAt(book, 'price')).toBe(before.price);
    expect(numberAt(book, 'hourly_rate')).toBe(45);
  });

  it('H11 know a wood by what stands beside its price', () => {
    const shop = Workbook.open(shipped('dining-table'));
    const sheet = shop.tables().find(({ kind }) => kind === 'prices')?.sheet ?? '';
    const row = rowOf(shop, sheet, 'white oak');
    const done = shop.apply({ do: 'enter', sheet, cells: [{ row, column: 3, text: '10.25' }] });
    expect(done.ok).toBe(true);
    const figures = told(Workbook.open(shipped('bookcase')), shop.document());
    expect(figures.map(({ what, shops }) => [what.replace(/ \(.*/, ''), shops])).toEqual([
      ['white oak 1, price', '$10.25'],
    ]);
  });

  it('H11 are brought to the units of the workbook as they are, on no round figures', () => {
    const metric = Workbook.open(shipped('bench'));
    expect(metric.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    const figures = told(
      metric,
      typed(shipped('dining-table'), { jointer_width: '8', kerf: '3/32' }),
    );
    expect(figures.find(({ key }) => key === 'kerf')?.shops).toBe('2.4 mm');
    const jointer = figures.find(({ key }) => key === 'jointer_width');
    expect(jointer?.shops).toBe('203.2 mm');
    expect(metric.apply(takeFigures(metric, figures)).ok).toBe(true);
    expect(numberAt(metric, 'kerf')).toBeCloseTo((25.4 * 3) / 32, 9);
    expect(numberAt(metric, 'jointer_width')).toBeCloseTo(203.2, 9);
  });

  it('H11 leave amounts in other money alone, and say that they did', () => {
    const shop = {
      ...typed(shipped('dining-table'), { hourly_rate: '60', kerf: '3/32' }),
      currency: 'EUR',
    };
    const { figures, otherMoney } = compared(Workbook.open(shipped('bench')), shop);
    expect(otherMoney).toBe(true);
    expect(figures.filter(({ tells }) => tells).map(({ key }) => key)).toEqual(['kerf']);
  });

  it('H11 pass over a formula: what is worked out there is no figure of the shop', () => {
    const book = Workbook.open(shipped('bench'));
    enter(book, 'hourly_rate', '=40+7');
    const figures = told(book, typed(shipped('dining-table'), { hourly_rate: '60' }));
    expect(figures).toEqual([]);
  });
});

const done = (book: Workbook, edit: Edit): void => {
  const result = book.apply(edit);
  if (!result.ok) throw new Error(result.says);
};

/** A workbook of the shop with a wood and a finish of its own, a price for the wood and boards on the rack. */
function shopBook(): Workbook {
  const shop = Workbook.open(shipped('dining-table'));
  done(shop, {
    do: 'batch',
    edits: [
      ...rowsAdded(shop, [
        {
          list: 'woods',
          texts: [
            ['species', 'yard sapele'],
            ['tangential', '0.0031'],
            ['gravity', '0.6'],
          ],
        },
        {
          list: 'finishes',
          texts: [
            ['finish', 'shop varnish'],
            ['coverage', '450'],
          ],
        },
        {
          list: 'prices',
          texts: [
            ['wood', 'yard sapele'],
            ['price', '14'],
            ['per', 'board foot'],
          ],
        },
        ...(['44', '40'] as const).map((length) => ({
          list: 'rack' as const,
          texts: [
            ['stock', 'Offcut of the hall table'],
            ['material', 'white oak'],
            ['thickness', '1'],
            ['width', '5'],
            ['length', length],
            ['price', '0'],
            ['at hand', '2'],
          ] as const,
        })),
      ]),
    ],
  });
  return shop;
}

const keyed = (figures: readonly ShopFigure[]): readonly string[] =>
  figures.map(({ key, tells }) => (tells ? key : `(${key})`));

describe('lists of the shop', () => {
  it('H11 are shown where a workbook lacks their rows, told where it uses them, and taken with what hangs on them', () => {
    const shop = shopBook();
    const book = Workbook.open(shipped('bench'));
    const tables = book.tables().length;
    enter(book, 'species', 'sugar maple');
    const found = compared(book, shop.document()).figures;
    expect(keyed(found)).toEqual([
      '(prices yard sapele 0  board foot)',
      '(woods yard sapele)',
      '(finishes shop varnish)',
    ]);
    enter(book, 'species', 'yard sapele');
    // Without its figures the workbook does not know the wood.
    expect(book.named('movement_swing')?.value.kind).toBe('error');
    const used = compared(book, shop.document()).figures;
    expect(keyed(used)).toEqual([
      'prices yard sapele 0  board foot',
      'woods yard sapele',
      '(finishes shop varnish)',
    ]);
    done(book, takeFigures(book, used));
    expect(numberAt(book, 'movement_swing')).toBeGreaterThan(0);
    expect(numberAt(book, 'wood_price')).toBe(14);
    expect(book.tables().map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['parts', 'stock', 'joints', 'woods', 'finishes']),
    );
    expect(compared(book, shop.document()).figures).toEqual([]);
    book.undo();
    expect(book.named('movement_swing')?.value.kind).toBe('error');
    expect(book.tables()).toHaveLength(tables);
  });

  it('H11 differ figure by figure where both have the row, and a blank takes what the shop knows', () => {
    const shop = shopBook();
    const book = Workbook.open(shipped('bench'));
    done(book, {
      do: 'batch',
      edits: [
        ...rowsAdded(book, [
          {
            list: 'woods',
            texts: [
              ['species', 'Yard sapele'],
              ['tangential', '0.0028'],
            ],
          },
        ]),
      ],
    });
    const { figures } = compared(book, shop.document());
    const own = figures.filter(({ kind }) => kind === 'own');
    expect(own.map(({ key, mine, shops }) => [key, mine, shops])).toEqual([
      ['woods yard sapele tangential', '0.0028 per 1 %', '0.0031 per 1 %'],
      ['woods yard sapele gravity', '', '0.6'],
      ['finishes shop varnish', '', 'coverage 450 ft²/gal'],
    ]);
    done(book, takeFigures(book, own));
    expect(compared(book, shop.document()).figures.some(({ kind }) => kind === 'own')).toBe(false);
  });

  it('H11 have the boards on the rack in the woods that a workbook is of, and their number where both have one', () => {
    const shop = shopBook();
    const book = Workbook.open(shipped('bookcase'));
    enter(book, 'species', 'white oak');
    const rack = (): readonly ShopFigure[] =>
      compared(book, shop.document()).figures.filter(({ kind }) => kind === 'rack');
    expect(rack().map(({ mine, shops }) => [mine, shops])).toEqual([
      ['', 'white oak, 1 in × 5 in × 40 in, 2 at hand'],
      ['', 'white oak, 1 in × 5 in × 44 in, 2 at hand'],
    ]);
    const rows = book.tables().find(({ kind }) => kind === 'stock');
    done(book, takeFigures(book, rack()));
    const now = book.tables().find(({ kind }) => kind === 'stock');
    expect(now?.last).toBe((rows?.last ?? 0) + 1);
    expect(rack()).toEqual([]);
    // One of them was used.
    const at = compared(shop, book.document()).figures;
    expect(at).toEqual([]);
    const list = shop.tables().find(({ kind }) => kind === 'stock');
    if (list === undefined) throw new Error('no stock');
    const column = 6;
    done(shop, { do: 'enter', sheet: list.sheet, cells: [{ row: list.last, column, text: '1' }] });
    expect(rack().map(({ mine, shops }) => [mine, shops])).toEqual([['2', '1']]);
  });

  it('H11 have boards that came to the rack counted with those like them, and those cut up taken off', () => {
    const shop = shopBook();
    const board = { material: 'white oak', thickness: 25.4, width: 127, count: 1 };
    const like = { ...board, name: 'offcut of the hall table', length: 44 * 25.4 };
    const other = { ...board, name: 'Offcut of Bench', length: 20.33 * 25.4, count: 3 };
    const unknown = { ...board, name: 'Bought', length: 1000 };
    const gone = { ...board, name: 'Offcut of the hall table', length: 40 * 25.4, count: 5 };
    const lies = (): readonly (readonly unknown[])[] => {
      const list = shop.tables().find(({ kind }) => kind === 'stock');
      const rows = Array.from({ length: (list?.last ?? 0) - (list?.header ?? 0) }, (_, i) =>
        [0, 4, 6].map(
          (column) =>
            shop.cell({ sheet: list?.sheet ?? '', row: (list?.header ?? 0) + 1 + i, column }).shown
              .text,
        ),
      );
      return rows.filter(([name]) => /hall table|Offcut of Bench|Bought/.test(name ?? ''));
    };
    const before = lies();
    done(shop, rackEdit(shop, { comes: [like, other], goes: [unknown, gone] }));
    expect(lies().toSorted()).toEqual(
      [
        ['Offcut of the hall table', '44', '3'],
        ['Offcut of the hall table', '40', '0'],
        // Down to the sixteenth.
        ['Offcut of Bench', '20 5/16', '3'],
      ].toSorted(),
    );
    shop.undo();
    expect(lies()).toEqual(before);
  });

  it('H11 go with the letterhead and the terms, which are told where there are none', () => {
    const letterhead = {
      name: 'A made-up shop',
      address: 'Mill Lane 4\nAny Town',
      tax: '00-0000000',
    };
    const shop = { ...shipped('dining-table'), letterhead, terms: 'Half now.' };
    const book = Workbook.open(shipped('bench'));
    enter(book, 'species', 'white ash');
    const { figures } = compared(book, shop);
    expect(figures.map(({ what, mine, shops, tells }) => [what, mine, shops, tells])).toEqual([
      ['Letterhead', '', 'A made-up shop, Mill Lane 4, Any Town, 00-0000000', true],
      ['Terms', '', 'Half now.', true],
    ]);
    done(book, takeFigures(book, figures));
    expect(book.head).toMatchObject({ letterhead, terms: 'Half now.' });
    done(book, { do: 'setBook', set: { terms: 'All on delivery.' } });
    expect(keyed(compared(book, shop).figures)).toEqual(['(terms)']);
  });

  it('H11 are known again by what the shop has, whatever units they are looked at in', () => {
    const shop = typed(shipped('dining-table'), { kerf: '3/32' });
    const metric = Workbook.open(shipped('bench'));
    const [inches] = compared(metric, shop).figures;
    done(metric, { do: 'changeUnits', to: 'metric' });
    const [millimeters] = compared(metric, shop).figures;
    expect(millimeters?.shops).not.toBe(inches?.shops);
    expect(millimeters?.sign).toBe(inches?.sign);
  });
});

describe('what a workbook is offered of the shop’s', () => {
  const offerTo = (document: BookDocument, shop: BookDocument): ShopOffer => {
    const made = ShopOffer.of(document, shop);
    if (!made.ok) throw new Error(made.says);
    return made.offer;
  };
  const all = (offer: ShopOffer) =>
    new Map(offer.figures.map(({ key }) => [key, 'theirs'] as const));

  it('H13 says what taking it does, which is what it does', () => {
    const shop = typed(shipped('dining-table'), {
      hourly_rate: '60',
      kerf: '3/32',
      jointer_width: '8',
    });
    const bench = shipped('bench');
    const offer = offerTo(bench, shop);
    const before = saveText(bench);
    const weighed = offer.weigh(all(offer));
    if ('says' in weighed) throw new Error(weighed.says);
    const price = (one: typeof weighed) => one.results.find(({ name }) => name === 'price')?.shown;
    expect(price(weighed)).not.toBe(price(offer.now()));
    const book = Workbook.open(bench);
    const taken = offer.take(all(offer));
    if (!taken.ok) throw new Error(taken.says);
    done(book, taken.edit);
    expect(book.named('price')?.shown.text).toBe(price(weighed));
    expect(weighed.checks).toEqual(book.checks());
    book.undo();
    expect(saveText(book.document())).toBe(before);
  });

  it('H13 never has what would change a price that was agreed on', () => {
    const shop = shopBook();
    for (const [name, text] of Object.entries({
      hourly_rate: '60',
      kerf: '3/32',
      lift_alone: '60',
      hours_a_day: '6',
    })) {
      enter(shop, name, text);
    }
    const open = { ...shipped('bench') };
    const agreed = { ...open, agreed: '2026-03-14', terms: 'As agreed.' };
    const withTerms = { ...shop.document(), terms: 'Half now.' };
    const free = offerTo(open, withTerms);
    expect(free.withheld).toEqual([]);
    const offer = offerTo(agreed, withTerms);
    expect(offer.withheld.map(({ key }) => key)).toEqual(
      expect.arrayContaining(['hourly_rate', 'terms']),
    );
    expect(offer.figures.length + offer.withheld.length).toBe(free.figures.length);
    // What is left may be taken, all of it, and no amount is another one.
    expect(offer.figures.map(({ key }) => key)).toContain('lift_alone');
    const book = Workbook.open(agreed);
    const amounts = (): readonly unknown[] =>
      book.names().flatMap(({ name }) => {
        const cell = book.named(name);
        return cell?.quantity?.startsWith('money') === true ? [[name, cell.value]] : [];
      });
    const before = amounts();
    const taken = offer.take(all(offer));
    if (!taken.ok) throw new Error(taken.says);
    done(book, taken.edit);
    expect(amounts()).toEqual(before);
  });

  it('H13 takes no two figures together that change an agreed price where each by itself does not', () => {
    const own = (rows: Readonly<Record<string, string>>): BookDocument => {
      const book = Workbook.open(shipped('cost'));
      for (const [name, text] of Object.entries(rows)) enter(book, name, text);
      return book.document();
    };
    // What is asked for an hour counts only where both are over their limits.
    const mine = Workbook.open(own({}));
    const sheet = mine.named('hourly_rate')?.at.sheet ?? '';
    const rows = mine.sheet(sheet)?.rows ?? 0;
    done(mine, {
      do: 'place',
      sheet,
      cells: [
        {
          row: rows,
          column: 0,
          cell: { value: 1, role: 'input', name: 'kerf', quantity: 'length' },
        },
        {
          row: rows + 1,
          column: 0,
          cell: { value: 1, role: 'input', name: 'end_trim', quantity: 'length' },
        },
        {
          row: rows + 2,
          column: 0,
          cell: { formula: '=IF(AND(kerf>1,end_trim>1),2,1)', quantity: 'money' },
        },
      ],
    });
    const shop = Workbook.open(mine.document());
    for (const name of ['kerf', 'end_trim']) enter(shop, name, '2');
    const offer = offerTo({ ...mine.document(), agreed: '2026-03-14' }, shop.document());
    expect(offer.figures.map(({ key }) => key)).toEqual(['kerf', 'end_trim']);
    expect(offer.take(new Map([['kerf', 'theirs']])).ok).toBe(true);
    expect(offer.take(all(offer))).toMatchObject({
      ok: false,
      says: expect.stringContaining('The price was agreed on'),
    });
  });
});

function rowOf(book: Workbook, sheet: string, words: string): number {
  const rows = book.sheet(sheet)?.rows ?? 0;
  for (let row = 0; row < rows; row += 1) {
    if (book.cell({ sheet, row, column: 0 }).shown.text === words) return row;
  }
  throw new Error(`no ${words}`);
}
