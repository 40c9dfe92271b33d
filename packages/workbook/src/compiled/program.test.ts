import { describe, expect, it } from 'vitest';
import { NODE, Program } from './program.ts';

describe('the order in which nodes are worked out', () => {
  // Lists grew by less than ranks did: some nodes had none until all grew again.
  it('A4 puts each node behind what it uses, however many come one by one', () => {
    const program = new Program();
    const uses = new Map<number, readonly number[]>();
    for (let round = 0; round < 400; round += 1) {
      const node = program.add(NODE.cell);
      // What was there before uses what is new, in a chain that grows at its front.
      const next = new Map<number, readonly number[]>([[node, []]]);
      if (node > 0) next.set(node - 1, [node]);
      for (const [one, list] of next) uses.set(one, list);
      program.settle(next);
      for (const [one, list] of uses) {
        for (const used of list) {
          expect(program.rank[one], `${one} of ${round}`).toBeGreaterThan(
            program.rank[used] as number,
          );
        }
      }
    }
  });
});
