import { expect } from 'vitest';
import type { PrintedPage } from './pdf.ts';

/** Margin, head and foot of a page, mm: what is between them is its field. */
const MARGIN = 13;
const HEAD = 13;
const FOOT = 8;

/** What stands over the first sheet of the patterns. */
const BEGINS_PATTERNS = /Full-size patterns .*Sheet 1 of /;

/**
 * Holds what is so of every printed page: the workbook at its head, units and its number at its foot, letters
 * of 9 points or more, all within the margins, and no page under a third full but the last, and the one before a
 * pattern at full size: that takes a page of its own, and nothing of it could stand on the page before.
 */
export function holdPages(pages: readonly PrintedPage[], title: string): void {
  expect(pages.length).toBeGreaterThan(0);
  for (const [i, page] of pages.entries()) {
    const where = `page ${i + 1} of ${pages.length}`;
    const top = page.height - MARGIN - HEAD;
    const head = page.words.filter(({ y }) => y > top).map(({ text }) => text);
    const foot = page.words.filter(({ y }) => y < MARGIN + FOOT).map(({ text }) => text);
    expect(head.join(' '), where).toContain(title);
    expect(head.join(' '), where).toMatch(/Printed \d+ \w{3} \d{4}/);
    expect(foot.join(' '), where).toMatch(/Sizes in (inches|millimetres)/);
    expect(foot.join(' '), where).toContain(`Page ${i + 1} of ${pages.length}`);
    const small = page.words.filter(({ size }) => size < 8.95);
    expect(
      small.map(({ text, size }) => `${size}: ${text}`),
      where,
    ).toEqual([]);
    const outside = page.words.filter(
      ({ x, width }) => x < MARGIN - 0.5 || x + width > page.width - MARGIN + 0.5,
    );
    expect(
      outside.map(({ text }) => text),
      where,
    ).toEqual([]);
    const next = pages[i + 1];
    if (next === undefined || BEGINS_PATTERNS.test(next.text)) continue;
    const lowest = Math.min(...page.words.map(({ y }) => y).filter((y) => y > MARGIN + FOOT));
    const field = top - (MARGIN + FOOT);
    expect((top - lowest) / field, `${where} is nearly empty`).toBeGreaterThan(1 / 3);
  }
}
