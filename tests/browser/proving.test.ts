import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { planLengths } from '@kerfbook/cutting';
import { planted } from '@kerfbook/cutting/testing';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, HIGH, startApp } from './support/app.ts';
import { Maker, words } from './support/maker.ts';

/** A buying plan that is proven behind the cells that answer with it. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Twelve boards cut up to the last kerf, a job whose first plan buys one more: its optimum is known. */
const JOB = (() => {
  for (let seed = 1; seed < 100; seed += 1) {
    const job = planted(seed, 12);
    if (planLengths(job).bought === 13) return job;
  }
  throw new Error('every first plan is the best one');
})();

const lengths = JOB.parts.map(({ length }) => length).join(';');
const counts = JOB.parts.map(() => 1).join(';');
const FORMULA = `=BUY_COST({${lengths}},{${counts}},{96},{10},1/8)`;
/** Rows of the first sheet that hold nothing. */
const ROWS = { plan: 10, sum: 16, free: 28 } as const;

/** The template with the formula in a free cell and a sum that rests on it; the worker waits till it is let go. */
async function asked(hold: boolean) {
  const page = await app.open({ viewport: HIGH });
  const complaints = complaintsOf(page);
  const maker = new Maker(page);
  let letGo: () => void = () => undefined;
  const gone = hold
    ? new Promise<void>((resolve) => {
        letGo = resolve;
      })
    : Promise.resolve();
  await page.route(/proof-worker-/, async (route) => {
    await gone;
    await route.continue();
  });
  await maker.ready();
  await maker.toSheet('s1');
  const cells = { plan: cell(maker, 'plan'), sum: cell(maker, 'sum'), free: cell(maker, 'free') };
  return { page, complaints, maker, letGo, cells };
}

const cell = (maker: Maker, what: keyof typeof ROWS) =>
  maker.cellAt({ sheet: 's1', row: ROWS[what], column: 1 });

async function write({ page, cells }: Awaited<ReturnType<typeof asked>>): Promise<void> {
  await cells.plan.click();
  await page.keyboard.press('F2');
  await page.keyboard.insertText(FORMULA);
  await page.keyboard.press('Enter');
  await cells.sum.click();
  await page.keyboard.press('F2');
  await page.keyboard.insertText(`=B${ROWS.plan + 1}*2`);
  await page.keyboard.press('Enter');
}

const line = (page: Page) => page.locator('.proving-line');
const signed = (page: Page) => page.locator('.sheet-grid .is-proving').count();

describe('a buying plan in a cell', () => {
  it('answers at once, says that it is still being proven, and comes to the proven plan', async () => {
    const given = await asked(true);
    const { page, complaints, maker, letGo, cells } = given;
    await write(given);
    await expect.poll(() => words(cells.plan)).toContain('130');
    await line(page).getByText('still being proven').waitFor();
    await expect.poll(() => signed(page)).toBe(2);
    // On paper the figures bear the sign and what it means.
    await page.keyboard.press('ControlOrMeta+p');
    await page
      .locator('.app-page .page')
      .getByText(/… \$?260/)
      .first()
      .waitFor();
    await page
      .locator('.app-page .page')
      .getByText('rest on a buying plan that is still being proven')
      .first()
      .waitFor();
    await page.keyboard.press('Escape');
    letGo();
    await expect.poll(() => words(cells.plan), { timeout: 30_000 }).toContain('120');
    expect(await words(cells.sum)).toContain('240');
    await expect.poll(() => signed(page)).toBe(0);
    expect(await line(page).count()).toBe(0);
    await maker.untilSaved();
    // Opened again it begins with the first plan and ends with the same one.
    await page.reload();
    await maker.ready();
    await expect.poll(() => words(cells.plan), { timeout: 30_000 }).toContain('120');
    await expect.poll(() => words(cells.sum)).toContain('240');
    expect(await line(page).count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('keeps its first plan where the proving is stopped, and goes on when asked', async () => {
    const given = await asked(true);
    const { page, maker, letGo, cells } = given;
    await write(given);
    await line(page).getByRole('button', { name: 'Stop proving' }).click();
    await line(page).getByText('left unproven').waitFor();
    letGo();
    // Work elsewhere does not begin it again, and the sign stays.
    await cells.free.click();
    await page.keyboard.type('7');
    await page.keyboard.press('Enter');
    await maker.untilSaved();
    expect(await words(cells.plan)).toContain('130');
    expect(await signed(page)).toBe(2);
    await line(page).getByRole('button', { name: 'Go on proving' }).click();
    await expect.poll(() => words(cells.plan), { timeout: 30_000 }).toContain('120');
    await page.context().close();
  }, 120_000);
});

describe('the solver', () => {
  it('may run in its own worker and nowhere else', async () => {
    const page = await app.open();
    const assets = readdirSync(join(import.meta.dirname, '../../apps/grid/dist/assets'));
    const policyOf = async (file: string): Promise<string> => {
      const answer = await page.request.get(`${app.address}${file}`);
      return answer.headers()['content-security-policy'] ?? '';
    };
    const scripts = assets.filter((file) => file.endsWith('.js'));
    const proving = scripts.filter((file) => file.startsWith('proof-worker-'));
    expect(proving.length).toBe(1);
    for (const file of scripts) {
      const policy = await policyOf(`assets/${file}`);
      expect(policy, file).toContain("script-src 'self'");
      expect(policy.includes('wasm-unsafe-eval'), file).toBe(proving.includes(file));
      expect(policy, file).not.toContain("'unsafe-eval'");
    }
    expect(await policyOf('')).not.toContain('wasm');
    // The smallest module there is: eight bytes.
    const tried = `WebAssembly.compile(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]))
      .then(() => 'ran', String)`;
    expect(await page.evaluate(tried)).toMatch(/Content Security Policy/);
    // In a worker as each script is answered: with its own headers, and another body.
    const other = scripts.find((file) => file.startsWith('shop-view-')) ?? '';
    let body = `${tried}.then((says) => postMessage(says))`;
    await page.route(/assets\/(?:proof-worker|shop-view)-/, async (route) => {
      await route.fulfill({ response: await route.fetch(), body });
    });
    const inWorker = (file: string): Promise<string> =>
      page.evaluate(
        (address) =>
          new Promise<string>((resolve) => {
            const worker = new Worker(address, { type: 'module' });
            worker.onmessage = ({ data }) => resolve(data);
          }),
        `/assets/${file}`,
      );
    expect(await inWorker(proving[0] ?? '')).toBe('ran');
    expect(await inWorker(other)).toMatch(/Content Security Policy/);
    // The solver as it is built: the least whole x of at least 2.5 is 3.
    const solver = scripts.find((file) => file.startsWith('highs-')) ?? '';
    const program = 'Minimize\\n c: x\\nSubject To\\n least: x >= 2.5\\nGeneral\\n x\\nEnd\\n';
    body = `import('/assets/${solver}').then((module) => module.default())
      .then((highs) => postMessage(String(highs.solve('${program}').ObjectiveValue)),
        (error) => postMessage(String(error)))`;
    expect(await inWorker(proving[0] ?? '')).toBe('3');
    await page.context().close();
  });
});
