import type { LengthsJob } from '../lengths-types.ts';

/** Numbers from 0 to 1, the same each time. */
function numbers(seed: number): () => number {
  let state = seed * 7919 + 1;
  const next = (): number => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
  for (let i = 0; i < 5; i += 1) next();
  return next;
}

/**
 * A job that was made by cutting so many boards of 96 in up to the last kerf, two to six parts of whole
 * sixteenths each: its optimum is these boards, since fewer have not the room.
 */
export function planted(seed: number, boards: number): LengthsJob {
  const random = numbers(seed);
  const grid = 16;
  const kerf = 1 / 8;
  const room = (96 + kerf) * grid;
  const least = 6 * grid;
  const parts: LengthsJob['parts'][number][] = [];
  for (let board = 0; board < boards; board += 1) {
    const shares = Array.from({ length: 2 + Math.floor(random() * 5) }, random);
    const all = shares.reduce((sum, share) => sum + share, 0);
    const free = room - shares.length * least;
    const sizes = shares.map((share) => least + Math.floor((free * share) / all));
    const rest = room - sizes.reduce((sum, size) => sum + size, 0);
    for (const [i, size] of sizes.entries()) {
      const length = (size + (i === 0 ? rest : 0)) / grid - kerf;
      parts.push({ key: `board ${board + 1}, part ${i + 1}`, length, count: 1 });
    }
  }
  return { parts, stock: [{ length: 96, price: 10 }], kerf };
}
