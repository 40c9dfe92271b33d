import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Order } from './order.ts';

/** Nodes 0 … n − 1; `uses[i]` lists the nodes that use node i directly. */
const graph = fc
  .integer({ min: 1, max: 12 })
  .chain((count) =>
    fc.array(fc.array(fc.nat(count - 1), { maxLength: 3 }), { minLength: count, maxLength: count }),
  );

/** What can be reached from a node by one step or more, by trying every way. */
function reached(uses: readonly (readonly number[])[], from: number): Set<number> {
  const found = new Set<number>();
  const edge = [...(uses[from] ?? [])];
  for (let next = edge.pop(); next !== undefined; next = edge.pop()) {
    if (found.has(next)) continue;
    found.add(next);
    edge.push(...(uses[next] ?? []));
  }
  return found;
}

const nodesOf = (uses: readonly unknown[]) => uses.map(() => ({}));

describe('the order of what follows from a change', () => {
  it('puts every node after what it uses and finds what is on a cycle', () => {
    const order = new Order();
    fc.assert(
      fc.property(graph, fc.array(fc.nat(11), { minLength: 1, maxLength: 3 }), (uses, wished) => {
        const seeds = [...new Set(wished.map((seed) => seed % uses.length))];
        order.begin(seeds, nodesOf(uses), uses);
        const sorted = order.goOn(undefined) ?? [];
        const all = new Set(seeds.flatMap((seed) => [seed, ...reached(uses, seed)]));
        expect(new Set(sorted)).toEqual(all);
        expect(sorted).toHaveLength(all.size);
        for (const id of sorted) {
          expect(order.isOnCycle(id)).toBe(reached(uses, id).has(id));
          for (const user of uses[id] ?? []) {
            // Listed last one first.
            const together = reached(uses, user).has(id);
            if (!together) expect(sorted.indexOf(user)).toBeLessThan(sorted.indexOf(id));
          }
        }
      }),
      { numRuns: 2_000 },
    );
  });

  it('keeps the nodes of one cycle together', () => {
    const uses = [[1], [2, 4], [3], [1], [5], [4]];
    const order = new Order();
    order.begin([0], nodesOf(uses), uses);
    const sorted = (order.goOn(undefined) ?? []).reverse();
    expect(sorted[0]).toBe(0);
    expect(new Set(sorted.slice(1, 4))).toEqual(new Set([1, 2, 3]));
    expect(new Set(sorted.slice(4))).toEqual(new Set([4, 5]));
  });

  it('goes on where it was stopped and comes to the same', () => {
    const uses = Array.from({ length: 5_000 }, (_, i) => (i < 4_999 ? [i + 1, 4_999] : []));
    const order = new Order();
    order.begin([0], nodesOf(uses), uses);
    let stops = 0;
    let sorted = order.goOn(() => false);
    while (sorted === undefined) {
      stops += 1;
      sorted = order.goOn(() => false);
    }
    expect(stops).toBeGreaterThan(5);
    expect(sorted).toEqual(Array.from({ length: 5_000 }, (_, i) => 4_999 - i));
  });

  it('leaves out nodes that are gone, and what stands due from one time to the next', () => {
    const order = new Order();
    order.begin([0], [{}, undefined, {}], [[1, undefined, 2], undefined, []]);
    expect(order.goOn(undefined)).toEqual([2, 0]);
    order.makeDue(0);
    expect(order.isDue(2)).toBe(true);
    order.begin([1], [{}, {}, {}], [[1, 2], [], []]);
    expect([order.isDue(1), order.isDue(2)]).toEqual([true, false]);
  });
});
