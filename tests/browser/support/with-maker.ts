import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { type App, complaintsOf, SCREEN, startApp } from './app.ts';
import { beginAnew } from './begin-anew.ts';
import { Maker } from './maker.ts';

/** What a test has at hand; made anew for each. */
export interface AtHand {
  page: Page;
  maker: Maker;
  /** What the page complained of; a test that expects a complaint takes it out. */
  complaints: string[];
}

/**
 * Opens the app on the dining table before each test of a file, in a profile of its own, and holds at
 * its end that the page has complained of nothing.
 * @param shared for files whose tests mind the page and not how it is opened: it stays open from test to test, and
 *   each has the dining table anew in it, which costs less than opening the app. After a test that failed it is opened anew.
 * @param viewport the size of the window
 */
export function withMaker({ shared = false, viewport = SCREEN } = {}): AtHand {
  let app: App;
  const atHand = {} as AtHand;
  let isOpen = false;

  async function open(): Promise<void> {
    atHand.page = await app.open({ viewport });
    atHand.complaints = complaintsOf(atHand.page);
    atHand.maker = new Maker(atHand.page);
    await atHand.maker.ready();
  }

  beforeAll(async () => {
    app = await startApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    if (!isOpen) return open();
    isOpen = false;
    await atHand.page.setViewportSize(viewport);
    await beginAnew(atHand.maker);
  });
  afterEach(async ({ task }) => {
    const { complaints, page } = atHand;
    expect(complaints).toEqual([]);
    isOpen = shared && task.result?.state !== 'fail';
    if (!isOpen) await page.context().close();
  });
  return atHand;
}
