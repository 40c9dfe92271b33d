import { describe, expect, it, vi } from 'vitest';
import { bookOf, type } from '../testing/sample.ts';

const { read } = vi.hoisted(() => ({ read: [] as string[] }));

vi.mock('@borgar/fx', async (original) => {
  const fx = await original<typeof import('@borgar/fx')>();
  return {
    ...fx,
    tokenize: (text: string) => {
      read.push(text);
      return fx.tokenize(text);
    },
  };
});

/** How often each text was read. */
function readings(): readonly (readonly [text: string, times: number])[] {
  const times = new Map<string, number>();
  for (const text of read) times.set(text, (times.get(text) ?? 0) + 1);
  return [...times];
}

describe('a formula that is entered', () => {
  it('F1 is read once as it is typed, and what is kept of it once', () => {
    const book = bookOf({ sheets: { Base: [[1, 2, null]] } });
    read.length = 0;
    type(book, 'C1', '=A1+B1*SUM(A1:B1)');
    expect(readings().find(([text]) => text === '=A1+B1*SUM(A1:B1)')).toEqual([
      '=A1+B1*SUM(A1:B1)',
      1,
    ]);
    expect(readings().filter(([, times]) => times > 1)).toEqual([]);
  });

  it('F1 is not read again where others with the same text are told to the engine', () => {
    read.length = 0;
    bookOf({ sheets: { Base: [['=1+2*3', '=1+2*3', '=1+2*3', '=1+2*3']] } });
    expect(readings()).toEqual([['=1+2*3', 1]]);
  });
});
