import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Keeper } from './keeper.ts';
import { workingCopy } from './opening.ts';
import type { SaveState } from './save-state.ts';
import { BENCH_TEMPLATE, BENCH_TEXT, lengthEdit, TestStore } from './testing/sample.ts';

const NOW = new Date(2026, 10, 25, 10, 42).getTime();
const ID = 'template-bench';

async function desk() {
  const store = new TestStore();
  await store.put(workingCopy(BENCH_TEMPLATE, BENCH_TEXT, NOW));
  const told: SaveState[] = [];
  let text = 'as it came';
  const state = { puttingIn: false, pieces: 1, asked: 0 };
  function* pieces(): Generator<string, boolean> {
    const began = text;
    for (let i = 0; i < state.pieces; i += 1) {
      state.asked += 1;
      yield i === 0 ? text : '.';
      if (text !== began) return false;
    }
    return !state.puttingIn;
  }
  const keeper = new Keeper(
    store,
    { id: ID, revision: 0, title: () => 'Bench', pieces },
    (state) => told.push(state),
    { now: () => NOW, idle: 1_000, retry: 5_000 },
  );
  const edit = (length: string) => {
    text = `with ${length}`;
    keeper.record(lengthEdit(length));
  };
  return { store, keeper, told, edit, state };
}

const full = () => new DOMException('no room', 'QuotaExceededError');
const settle = () => vi.advanceTimersByTimeAsync(0);

describe('keeping one workbook', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('hands an edit to the store before the call returns', async () => {
    const { store, edit } = await desk();
    edit('50');
    expect(store.appended.map(({ seq }) => seq)).toEqual([1]);
  });

  it('says saved only once the write has settled', async () => {
    const { keeper, edit, told } = await desk();
    expect(keeper.state).toEqual({ kind: 'untouched' });
    edit('50');
    expect(keeper.state).toEqual({ kind: 'saving' });
    expect(keeper.unsafe).toBe(true);
    await settle();
    expect(told.at(-1)).toEqual({ kind: 'saved', at: NOW });
    expect(keeper.unsafe).toBe(false);
  });

  it('folds the log into the text when the maker pauses', async () => {
    const { store, edit } = await desk();
    edit('50');
    edit('51');
    await vi.advanceTimersByTimeAsync(999);
    expect((await store.read(ID))?.log).toHaveLength(2);
    await vi.advanceTimersByTimeAsync(1);
    const kept = await store.read(ID);
    expect(kept?.log).toEqual([]);
    expect(kept?.record).toMatchObject({ text: 'with 51', revision: 2, updated: NOW });
  });

  it('lets an edit in while a long text is written, and folds again after it', async () => {
    vi.useRealTimers();
    const { store, edit, state } = await desk();
    state.pieces = 4_000_000;
    edit('50');
    await new Promise((resolve) => setTimeout(resolve, 1_050));
    expect(state.asked).toBeGreaterThan(0);
    expect(state.asked).toBeLessThan(state.pieces);
    edit('51');
    state.pieces = 3;
    await vi.waitFor(async () => {
      expect((await store.read(ID))?.record.text).toBe('with 51..');
    }, 60_000);
    const kept = await store.read(ID);
    expect(kept?.record.revision).toBe(2);
    expect(kept?.log).toEqual([]);
  });

  it('does not fold what is only half put in, and does not try again at once', async () => {
    const { store, keeper, edit, state } = await desk();
    for (let i = 0; i < 200; i += 1) edit('49');
    edit('50');
    state.puttingIn = true;
    await keeper.fold();
    expect((await store.read(ID))?.record.revision).toBe(0);
    expect((await store.read(ID))?.log).toHaveLength(201);
    await vi.advanceTimersByTimeAsync(900);
    expect(state.asked).toBe(1);
    state.puttingIn = false;
    await vi.advanceTimersByTimeAsync(100);
    expect((await store.read(ID))?.record).toMatchObject({ text: 'with 50', revision: 201 });
  });

  it('says what to do when the device is full, and writes all of it when there is room', async () => {
    const { store, keeper, edit } = await desk();
    store.trouble = full();
    edit('50');
    edit('51');
    await settle();
    expect(keeper.state).toMatchObject({ kind: 'notSaved' });
    expect(keeper.state).toHaveProperty('why', expect.stringContaining('save a copy as a file'));
    expect(keeper.unsafe).toBe(true);
    store.trouble = undefined;
    await vi.advanceTimersByTimeAsync(5_000);
    expect(keeper.state).toEqual({ kind: 'saved', at: NOW });
    const kept = await store.read(ID);
    expect(kept?.record.text).toBe('with 51');
  });

  it('stays not saved when only a later edit could be written', async () => {
    const { store, keeper, edit } = await desk();
    store.trouble = full();
    edit('50');
    store.trouble = undefined;
    edit('51');
    await settle();
    expect(keeper.state.kind).toBe('notSaved');
    await keeper.retry();
    expect((await store.read(ID))?.log.map(({ seq }) => seq)).toEqual([1, 2]);
    expect(keeper.state.kind).toBe('saved');
  });

  it('never says saved where nothing lasts', async () => {
    const { keeper, edit, store } = await desk();
    Object.defineProperty(store, 'lasting', { value: false });
    edit('50');
    await settle();
    expect(keeper.state.kind).toBe('notSaved');
  });
});
