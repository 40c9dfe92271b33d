import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { type App, complaintsOf, startApp } from './app.ts';
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
 */
export function withMaker(): AtHand {
  let app: App;
  const atHand = {} as AtHand;
  beforeAll(async () => {
    app = await startApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    atHand.page = await app.open();
    atHand.complaints = complaintsOf(atHand.page);
    atHand.maker = new Maker(atHand.page);
    await atHand.maker.ready();
  });
  afterEach(async () => {
    expect(atHand.complaints).toEqual([]);
    await atHand.page.context().close();
  });
  return atHand;
}
