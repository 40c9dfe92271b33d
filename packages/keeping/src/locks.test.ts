import { describe, expect, it } from 'vitest';
import { holdBook } from './locks.ts';
import { fakeLocks } from './testing/locks.ts';

describe('one writer', () => {
  it('lets the first write and the second read', async () => {
    const locks = fakeLocks();
    expect((await holdBook('b1', locks)).access).toBe('write');
    expect((await holdBook('b1', locks)).access).toBe('read');
  });

  it('lets two workbooks be written at once', async () => {
    const locks = fakeLocks();
    await holdBook('b1', locks);
    expect((await holdBook('b2', locks)).access).toBe('write');
  });

  it('tells the reader when the writer has gone', async () => {
    const locks = fakeLocks();
    const first = await holdBook('b1', locks);
    const second = await holdBook('b1', locks);
    let free = false;
    void second.free.then(() => {
      free = true;
    });
    await Promise.resolve();
    expect(free).toBe(false);
    first.release();
    await second.free;
    expect(free).toBe(true);
  });

  it('keeps the lock for a reader that was told, until it lets go', async () => {
    const locks = fakeLocks();
    const first = await holdBook('b1', locks);
    const second = await holdBook('b1', locks);
    first.release();
    await second.free;
    expect((await holdBook('b1', locks)).access).toBe('read');
  });

  it('writes where the browser has no locks', async () => {
    expect((await holdBook('b1', undefined)).access).toBe('write');
  });

  it('writes where the browser denies its locks, as where site data is blocked', async () => {
    const denied = { request: () => Promise.reject(new DOMException('denied', 'SecurityError')) };
    expect((await holdBook('b1', denied)).access).toBe('write');
    const throws = {
      request: () => {
        throw new DOMException('denied', 'SecurityError');
      },
    };
    expect((await holdBook('b1', throws)).access).toBe('write');
  });

  it('has let go when it says so, so that the next can take it at once', async () => {
    const locks = fakeLocks();
    await (await holdBook('b1', locks)).release();
    expect((await holdBook('b1', locks)).access).toBe('write');
  });
});
