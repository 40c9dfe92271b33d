import {
  followedBy,
  leaningBy,
  movedBy,
  placed,
  ShapedPieces,
  shaped,
  sharedRooms,
  UPRIGHT,
} from '@kerfbook/solids';
import { mixedParts } from './shaped-parts.mjs';

/**
 * How long pieces take to be made, placed and held against each other, as so many times what a plain box takes in
 * the same run. Targets: a piece that is remembered costs no more than a box, a leg with its joints less than 100.
 */

const ROUNDS = 9;

const BOX = /** @type {const} */ ({ kind: 'box', length: 700, width: 60, thickness: 60 });
const APRON = /** @type {const} */ ({ kind: 'box', length: 900, width: 90, thickness: 20 });

/** @type {readonly (readonly [name: string, shape: import('@kerfbook/solids').Shape])[]} */
const SHAPES = [
  [
    'tapered leg',
    {
      blank: BOX,
      cuts: [{ kind: 'taper', faces: ['front', 'top'], to: 35, from: 120, towards: 'end' }],
    },
  ],
  [
    'leg, tapered, two mortises',
    {
      blank: BOX,
      cuts: [
        { kind: 'taper', faces: ['front', 'top'], to: 35, from: 120, towards: 'end' },
        { kind: 'mortise', face: 'top', at: [60, 30], length: 80, width: 10, depth: 30 },
        { kind: 'mortise', face: 'back', at: [60, 30], length: 80, width: 10, depth: 30 },
      ],
    },
  ],
  [
    'apron, arched, two tenons, groove',
    {
      blank: APRON,
      cuts: [
        { kind: 'arch', face: 'front', rise: 30, chord: 700 },
        { kind: 'tenon', end: 'start', length: 25, width: 60, thickness: 10 },
        { kind: 'tenon', end: 'end', length: 25, width: 60, thickness: 10 },
        { kind: 'groove', face: 'bottom', at: 70, width: 6, depth: 8 },
      ],
    },
  ],
  [
    'rail with 12 holes',
    {
      blank: APRON,
      cuts: Array.from({ length: 12 }, (_, i) => ({
        kind: 'hole',
        face: 'top',
        at: [60 + 70 * i, 45],
        diameter: 10,
      })),
    },
  ],
  [
    'round top',
    { blank: { kind: 'prism', outline: { kind: 'disc', diameter: 1200 }, through: 25 } },
  ],
  [
    'oval top, edge bevelled underneath',
    {
      blank: { kind: 'prism', outline: { kind: 'oval', length: 1800, width: 1000 }, through: 25 },
      cuts: [{ kind: 'chamfer', edge: ['bottom', 'around'], width: 50, height: 15 }],
    },
  ],
  [
    'oval top, edge rounded underneath',
    {
      blank: { kind: 'prism', outline: { kind: 'oval', length: 1800, width: 1000 }, through: 25 },
      cuts: [{ kind: 'roundover', edge: ['bottom', 'around'], radius: 10 }],
    },
  ],
];

/**
 * Of the processor's time, so that what else runs on it counts less.
 * @param {() => unknown} run @returns microseconds, the middle of several rounds
 */
function time(run) {
  const warm = performance.now();
  while (performance.now() - warm < 200) run();
  const times = Array.from({ length: ROUNDS }, () => {
    const [start, wall] = [spent(), performance.now()];
    let count = 0;
    do {
      run();
      count += 1;
    } while (performance.now() - wall < 40);
    return (spent() - start) / count;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)] ?? 0;
}

function spent() {
  const { user, system } = process.cpuUsage();
  return user + system;
}

/** @param {import('@kerfbook/solids').Shape} shape */
function solidOf(shape) {
  const answer = shaped(shape);
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid;
}

const lean = followedBy(UPRIGHT, leaningBy(8, 5));
const plain = solidOf({ blank: BOX });
const base = {
  make: time(() => shaped({ blank: BOX })),
  place: time(() => placed(plain, lean)),
  meet: time(() => sharedRooms(plain, placed(plain, movedBy([690, 20, 10])))),
};
console.log(
  `a box: made in ${base.make.toFixed(1)} µs, placed in ${base.place.toFixed(1)} µs, against another in ${base.meet.toFixed(1)} µs`,
);
console.log(`${'times a box'.padEnd(36)}   make  again  place   meet  cells facets  edges`);
const kept = new ShapedPieces(100);
for (const [name, shape] of SHAPES) {
  const solid = solidOf(shape);
  const times = [
    time(() => shaped(shape)) / base.make,
    time(() => kept.of(shape)) / base.make,
    time(() => placed(solid, lean)) / base.place,
    time(() => sharedRooms(solid, placed(solid, movedBy([690, 20, 10])))) / base.meet,
  ];
  const counts = [solid.cells.length, solid.facets.length, solid.edges.length];
  console.log(
    `${name.padEnd(36)} ${times.map((one) => one.toFixed(1).padStart(6)).join(' ')} ${counts.map((one) => String(one).padStart(6)).join(' ')}`,
  );
}

const { solids } = mixedParts(300);
/** @param {(one: import('@kerfbook/solids').Solid, other: import('@kerfbook/solids').Solid) => number} volume */
const clashes = (volume) => {
  let found = 0;
  for (const [index, one] of solids.entries()) {
    for (let next = index + 1; next < solids.length; next += 1) {
      if (volume(one, /** @type {import('@kerfbook/solids').Solid} */ (solids[next])) > 0)
        found += 1;
    }
  }
  return found;
};
const shapedClashes = () => clashes((one, other) => sharedRooms(one, other).volume);
console.log(
  `${shapedClashes()} clashes among ${solids.length} shaped parts, each with every other: ${(time(shapedClashes) / 1000).toFixed(1)} ms`,
);
