import type { Locks } from '../locks.ts';

/** One lock after another, as the Web Locks standard has it: one holder a name, first come first. */
export function fakeLocks(): Locks {
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
