import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saveText } from '../format/save.ts';
import type { BookDocument } from '../format/schema.ts';
import { loadText } from '../loading/load.ts';
import { BookState } from '../state/state.ts';
import { anyChange, bench } from '../testing/changes.ts';
import { applyChanges, replay } from './apply.ts';
import { readChanges } from './read.ts';
import type { Change } from './types.ts';

const some = fc.array(anyChange, { maxLength: 8 });
const first = saveText(bench);
const after = (changes: readonly Change[]): BookDocument => replay(bench, changes).document;

describe('changes', () => {
  it('H1 are taken back by their inverse, and leave what was before as it was', () => {
    fc.assert(
      fc.property(some, (changes) => {
        const state = BookState.of(bench);
        const done = applyChanges(state, changes);
        expect(saveText(state.document())).toBe(first);
        const back = applyChanges(done.state, done.inverse);
        expect(back.conflicts).toEqual([]);
        expect(saveText(back.state.document())).toBe(first);
        expect(new Map(back.state.homes)).toEqual(new Map(state.homes));
        // And forward again, with what was carried out.
        const steps = done.steps.map(({ change }) => change);
        const again = applyChanges(back.state, steps);
        expect(again.conflicts).toEqual([]);
        expect(saveText(again.state.document())).toBe(saveText(done.state.document()));
      }),
      { numRuns: 2_000 },
    );
  });

  it('H2 whatever they are leave a workbook that opens, and names where its cells are', () => {
    fc.assert(
      fc.property(some, (changes) => {
        const { state, conflicts } = applyChanges(BookState.of(bench), changes);
        const text = saveText(state.document());
        const loaded = loadText(text);
        expect(loaded).toMatchObject({ ok: true });
        if (!loaded.ok) return;
        expect(saveText(loaded.document)).toBe(text);
        const fresh = BookState.of(loaded.document);
        expect(fresh.names()).toEqual(state.names());
        expect(state.homes.size).toBe(fresh.homes.size);
        for (const { says } of conflicts) expect(says).toMatch(/^.{20,}\.$/su);
      }),
      { numRuns: 2_000 },
    );
  });

  it('H3 carried out one by one from a log give the same bytes as all at once', () => {
    fc.assert(
      fc.property(some, (changes) => {
        const done = applyChanges(BookState.of(bench), changes);
        const log: unknown = JSON.parse(JSON.stringify(done.steps.map(({ change }) => change)));
        const read = readChanges(log);
        expect(read).toHaveProperty('changes');
        if (!('changes' in read)) return;
        expect(saveText(after(read.changes))).toBe(saveText(done.state.document()));
      }),
      { numRuns: 1_000 },
    );
  });
});
