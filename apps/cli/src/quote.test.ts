import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const shipped = (name: string): string =>
  readFileSync(new URL(`../../../templates/${name}.json`, import.meta.url), 'utf8');
const files = {
  'table.json': shipped('dining-table'),
  'cost.json': shipped('cost'),
};

const quote = (...args: readonly string[]) => call(['quote', ...args], files);

describe('quote', () => {
  it('writes one page without a script, with its number, its day and until when it holds', async () => {
    const { code, err, out, written } = await quote(
      'cost.json',
      ...['--out', 'a.html', '--number', '12', '--date', '2026-03-14', '--valid', '14'],
    );
    expect({ code, err, out }).toEqual({ code: 0, err: '', out: '' });
    const page = written?.['a.html'] ?? '';
    expect(page).toMatch(/^<!doctype html>/);
    expect(page).not.toContain('<script');
    expect(page).toContain('Quote 12');
    expect(page).toContain('28 March 2026, 14 days');
    expect(page).toContain('font/woff2;base64,');
    expect(page).toContain('size: letter');
  });

  it('gives its amounts as numbers that add up, at what is set', async () => {
    const { code, out } = await quote(
      'cost.json',
      ...['--out', 'a.html', '--json', '--date', '2026-03-14', '--set', 'tax_percent=20'],
    );
    expect(code).toBe(0);
    const told = JSON.parse(out) as Record<string, number>;
    expect(told).toMatchObject({
      kind: 'quote',
      date: '2026-03-14',
      validUntil: '2026-04-13',
      currency: 'USD',
      options: [],
    });
    const { price = 0, tax = 0, total = 0, deposit = 0, later = 0 } = told;
    expect(price).toBeGreaterThan(0);
    expect(tax).toBeCloseTo(price * 0.2, 2);
    expect(price + tax).toBeCloseTo(total, 9);
    expect(deposit).toBeCloseTo(total * 0.4, 2);
    expect(deposit + later).toBeCloseTo(total, 9);
  });

  it('writes the care note and a receipt of what was paid', async () => {
    const care = await quote('cost.json', '--out', 'a.html', '--kind', 'care', '--paper', 'A4');
    expect(care.code).toBe(0);
    expect(care.written?.['a.html']).toContain('Care note');
    expect(care.written?.['a.html']).toContain('size: A4');
    const receipt = await quote(
      'cost.json',
      ...['--out', 'a.html', '--kind', 'receipt', '--paid', '$1,000.50', '--json'],
    );
    const { total, paid, due } = JSON.parse(receipt.out) as Record<string, number>;
    expect(paid).toBe(1000.5);
    expect(due).toBeCloseTo((total ?? 0) - 1000.5, 9);
  });

  it('says what is missing where there is no price', async () => {
    const { code, err, written } = await quote(
      'cost.json',
      '--out',
      'a.html',
      '--set',
      'quote_rounded=0',
    );
    expect(code).toBe(1);
    expect(err).toContain('The price in the cell quote_rounded is $0.00');
    expect(written?.['a.html']).toContain('Not ready to hand out');
  });

  it.each([
    [['table.json'], '--out says where the page goes'],
    [['table.json', '--out', 'a', '--kind', 'bill'], '--kind takes quote, care, receipt; it got'],
    [['table.json', '--out', 'a', '--number', '0'], '--number takes a whole number from 1'],
    [['table.json', '--out', 'a', '--date', '14.3.2026'], '--date takes a day such as 2026-03-14'],
    [['table.json', '--out', 'a', '--valid', '0'], '--valid takes a whole number from 1 to 730'],
    [['table.json', '--out', 'a', '--paid', '5'], '--paid goes with --kind receipt.'],
    [['cost.json', '--out', 'a', '--kind', 'receipt', '--paid', 'x'], '--paid takes an amount'],
    [['table.json', '--out', 'a', '--kind', 'care', '--valid', '9'], '--valid goes with a quote.'],
    [['--out', 'a'], 'There is no workbook to make a quote of.'],
  ])('refuses %s', async (args, says) => {
    const { code, err } = await quote(...args);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });
});
