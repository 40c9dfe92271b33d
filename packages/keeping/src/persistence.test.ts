import { describe, expect, it } from 'vitest';
import type { StorageManagerLike } from './persistence.ts';
import { workingCopyId } from './templates.ts';
import {
  BENCH_TEMPLATE,
  change,
  lengthEdit,
  openPage,
  saveAndOpen,
  TestStore,
} from './testing/sample.ts';

/** Whether work may be cleared is known at the opening where there is work, and nobody is asked before. */

const settled = () => new Promise((done) => setTimeout(done));

function storage(promised: boolean): StorageManagerLike & { readonly asked: () => number } {
  let asked = 0;
  return {
    asked: () => asked,
    persisted: async () => promised,
    persist: async () => {
      asked += 1;
      return promised;
    },
  };
}

describe('the promise not to clear what is kept', () => {
  it('is asked for after the first save, and looked at without asking at the next opening', async () => {
    const store = new TestStore();
    const browser = storage(false);
    const first = await openPage(store, { storage: browser });
    expect(first.state.value.keeping).toBe('unknown');
    expect(browser.asked()).toBe(0);
    change(first, lengthEdit('50'));
    await settled();
    expect(first.state.value.keeping).toBe('atRisk');
    expect(browser.asked()).toBe(1);

    const next = await openPage(store, { storage: browser });
    expect(next.state.value.keeping).toBe('atRisk');
    expect(browser.asked()).toBe(1);
    expect((await openPage(store, { storage: storage(true) })).state.value.keeping).toBe(
      'promised',
    );
    expect((await openPage(store, {})).state.value.keeping).toBe('unknown');
  });

  it('is not looked at where templates were only looked at', async () => {
    const store = new TestStore();
    const templates = [BENCH_TEMPLATE, { ...BENCH_TEMPLATE, key: 'stool', title: 'Stool' }];
    const input = { templates, storage: storage(false) };
    const first = await openPage(store, input);
    expect(await first.open(workingCopyId('stool'))).toEqual({ ok: true });
    expect((await openPage(store, input)).state.value.keeping).toBe('unknown');
  });

  it('is looked at where the work is another workbook than the one at hand', async () => {
    const store = new TestStore();
    const input = { storage: storage(false) };
    const first = await openPage(store, input);
    expect(await saveAndOpen(first, 'Long bench')).toEqual({ ok: true });
    expect(await first.open(workingCopyId('bench'))).toEqual({ ok: true });
    expect((await openPage(store, input)).state.value.keeping).toBe('atRisk');
  });
});
