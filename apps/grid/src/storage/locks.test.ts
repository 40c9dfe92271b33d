import { describe, expect, it } from 'vitest';
import { holdBook, type Locks } from './locks.ts';

/** One lock after another, as the Web Locks standard has it: one holder a name, first come first. */
function fakeLocks(): Locks {
  const queues = new Map<string, Promise<unknown>>();
  const held = new Set<string>();
  return {
    async request(name, { ifAvailable, signal }, use) {
      if (ifAvailable === true && held.has(name)) return use(null);
      const before = queues.get(name) ?? Promise.resolve();
      const run = before.then(async () => {
        if (signal?.aborted === true) return;
        held.add(name);
        await use({ name });
        held.delete(name);
      });
      held.add(name);
      queues.set(name, run);
      return run;
    },
  };
}

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
});
