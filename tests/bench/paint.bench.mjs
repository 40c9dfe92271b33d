import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';
import { openBuiltApp } from '../scripts/chromium.mjs';
import { openBareGrid } from './bare-grid.mjs';
import { cellSelector, installProbe, percentile, textsOf, timeEdit } from './probe.mjs';

/**
 * From committing an edit to the frame in which what depends on it is painted, on the dining table
 * in the built app, beside the bare grid's own edit. Rounds alternate, so that a slow moment of the
 * machine falls on both.
 */

const ROUNDS = 8;
const EDITS_A_ROUND = 10;
/** One frame of a display with 60 of them a second. */
const FRAME_MS = 1000 / 60;
const VIEWPORT = { width: 1400, height: 800 };
const SETTLE_MS = 250;

const template = join(import.meta.dirname, '../../templates/dining-table.json');

function openTemplate() {
  const loaded = loadText(readFileSync(template, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** The number input of which one edit changes the most cells on its own sheet. */
function busiestInput() {
  const book = openTemplate();
  const candidates = book.names().flatMap(({ name, at }) => {
    const { value, role } = book.cell(at);
    if (role !== 'input' || value.kind !== 'number') return [];
    const entries = [`${value.number}`, `${value.number + 1}`];
    const { sheet, row, column } = at;
    const result = book.apply({
      do: 'enter',
      sheet,
      cells: [{ row, column, text: entries[1] ?? '' }],
    });
    if (!result.ok) return [];
    book.undo();
    const here = result.changed.filter((cell) => cell.sheet === sheet).length;
    return [{ name, at, entries, here, changed: result.changed.length }];
  });
  const best = candidates.sort((a, b) => b.here - a.here)[0];
  if (best === undefined) throw new Error('the template has no number input');
  return { ...best, sheet: book.sheet(best.at.sheet) };
}

/** @param {import('playwright-core').Page} page @param {number} ms */
const settle = (page, ms = SETTLE_MS) => page.waitForTimeout(ms);

/**
 * Learns what the cells show after each of two entries, so that a timed edit knows what to wait for.
 * @param {import('playwright-core').Page} page
 * @param {import('playwright-core').Locator} cell
 * @param {readonly string[]} entries
 */
async function learn(page, cell, entries) {
  /** @type {Map<string, string>[]} */
  const shown = [];
  for (const entry of entries) {
    await cell.click();
    await page.keyboard.type(entry);
    await page.keyboard.press('Enter');
    // The old value stands beside the new one for three seconds.
    await settle(page, 4000);
    shown.push(await textsOf(page));
  }
  return entries.map((_, i) => {
    const now = shown[i] ?? new Map();
    const before = shown[1 - i] ?? new Map();
    return [...now]
      .filter(([key, text]) => before.get(key) !== text)
      .map(([selector, text]) => ({ cell: selector, text }));
  });
}

/** @param {string} label @param {readonly number[]} times */
function row(label, times) {
  const cell = (/** @type {number} */ ms) => ms.toFixed(1).padStart(8);
  console.log(
    `${label.padEnd(34)}${String(times.length).padStart(4)}${cell(percentile(times, 0.5))}${cell(percentile(times, 0.95))}${cell(Math.max(...times))}`,
  );
}

async function main() {
  const input = busiestInput();
  const app = await openBuiltApp();
  try {
    const page = await app.browser.newPage({ viewport: VIEWPORT });
    await page.goto(`${app.address}?bench`);
    await page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: new RegExp(`^${input.sheet?.name}`) })
      .click();
    // The first column of the grid numbers the rows.
    const cell = page.locator(cellSelector(input.at.row, input.at.column + 2));
    await cell.waitFor();
    await settle(page, 1000);
    const awaited = await learn(page, cell, input.entries);
    const bare = await openBareGrid(app.browser, {
      viewport: VIEWPORT,
      rows: input.sheet?.rows ?? 50,
      columns: input.sheet?.columns ?? 10,
    });
    const target = cellSelector(3, 2);
    await installProbe(page);
    await installProbe(bare);
    /** @type {{ app: number[], bare: number[] }} */
    const times = { app: [], bare: [] };
    for (let round = 0; round < ROUNDS; round += 1) {
      await page.bringToFront();
      for (let i = 0; i < EDITS_A_ROUND; i += 1) {
        await cell.click();
        times.app.push(await timeEdit(page, input.entries[i % 2] ?? '', awaited[i % 2] ?? []));
        await settle(page);
      }
      await bare.bringToFront();
      for (let i = 0; i < EDITS_A_ROUND; i += 1) {
        const text = String(1000 + i);
        await bare.locator(target).click();
        times.bare.push(await timeEdit(bare, text, [{ cell: target, text }]));
        await settle(bare);
      }
    }
    report(input, awaited[0]?.length ?? 0, times);
  } finally {
    await app.close();
  }
}

/**
 * @param {ReturnType<typeof busiestInput>} input
 * @param {number} painted @param {{ app: readonly number[], bare: readonly number[] }} times
 */
function report(input, painted, times) {
  console.log(
    `${input.name}: ${input.changed} cells change, ${painted} of them in view on ${input.sheet?.name}`,
  );
  console.log(`${'Enter to painted frame, ms'.padEnd(34)}   n     p50     p95     max`);
  row('the app, dependents painted', times.app);
  row('the bare grid, its own edit', times.bare);
  const beyond = percentile(times.app, 0.95) - percentile(times.bare, 0.95);
  const verdict = beyond <= FRAME_MS ? 'within' : 'MORE THAN';
  console.log(
    `p95 beyond the bare grid: ${beyond.toFixed(1)} ms, ${verdict} one frame of ${FRAME_MS.toFixed(1)} ms`,
  );
}

await main();
