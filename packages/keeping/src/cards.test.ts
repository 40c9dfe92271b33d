import { describe, expect, it } from 'vitest';
import { keepCard, keptCards, keptPicture } from './cards.ts';
import { TestStore } from './testing/sample.ts';

const CARD = { made: 1, updated: 5, card: { woods: ['white oak'] }, hasPicture: true };

describe('cards of workbooks', () => {
  it('are read together, their pictures one by one, and go with the workbook', async () => {
    const store = new TestStore();
    await keepCard(store, 'a', CARD, '<svg/>');
    await keepCard(store, 'b', { ...CARD, hasPicture: false }, undefined);
    await store.set('card:c', 'not a card');
    expect([...(await keptCards(store)).keys()]).toEqual(['a', 'b']);
    expect(await keptPicture(store, 'a')).toBe('<svg/>');
    expect(await keptPicture(store, 'b')).toBeUndefined();
    await store.destroy('a');
    expect([...(await keptCards(store)).keys()]).toEqual(['b']);
    expect(await keptPicture(store, 'a')).toBeUndefined();
  });

  it('lose a picture that is no more', async () => {
    const store = new TestStore();
    await keepCard(store, 'a', CARD, '<svg/>');
    await keepCard(store, 'a', { ...CARD, hasPicture: false }, undefined);
    expect(await keptPicture(store, 'a')).toBeUndefined();
  });
});
