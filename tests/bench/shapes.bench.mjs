import {
  drawFlat,
  explode,
  findClashes,
  parallelView,
  prepareSolids,
  project,
  viewSolids,
} from '@kerfbook/drawing';
import { box, mixedParts } from './shaped-parts.mjs';

/**
 * Views of solids made of convex cells: boxes beside the code that knows upright boxes only, in turn,
 * and 200 parts of all shapes with 100 joints. Targets: boxes no slower than before (a ratio of 1),
 * 16 ms for three views of the 200 parts when one of them changed, and for a step of a turn, of which
 * a few for making ready. Beside those with one part changed stands the same with all parts new, of which nothing
 * is kept, and beside a step of a turn one of as many boxes by the code for boxes: on another machine, or a busy
 * one, it is the ratio that tells.
 * What is looked for in a scene of shaped parts besides: parts that run into each other (target: 50 ms for 300).
 */

const WARM_UP = 30;
const ROUNDS = 60;

/**
 * Boxes about as close as in a wall of cabinets.
 * @param {number} count
 */
function boxesOf(count) {
  return Array.from({ length: count }, (_, i) => {
    const cabinet = Math.floor(i / 10);
    const [x, z] = [(cabinet % 5) * 600, Math.floor(cabinet / 5) * 800];
    const parts = /** @type {const} */ ([
      [0, 20, 80, 18, 400, 700],
      [582, 20, 80, 18, 400, 700],
      [18, 20, 80, 564, 400, 18],
      [18, 20, 762, 564, 400, 18],
      [18, 30, 250, 564, 380, 18],
      [18, 30, 420, 564, 380, 18],
      [18, 30, 590, 564, 380, 18],
      [0, 420, 80, 600, 6, 700],
      [2, 0, 82, 596, 20, 696],
      [0, 60, 0, 600, 18, 80],
    ]);
    const [px = 0, py = 0, pz = 0, dx = 1, dy = 1, dz = 1] = parts[i % 10] ?? [];
    return /** @type {const} */ ([x + px, py, z + pz, dx, dy, dz]);
  });
}

/**
 * The same boxes as pieces.
 * @param {ReturnType<typeof boxesOf>} boxes
 * @returns {import('@kerfbook/drawing').Scene}
 */
function sceneOf(boxes) {
  const at = { sheet: 's1', row: 0, column: 0 };
  const part = { at, countAt: at, name: 'Box', count: 1, thickness: 1, width: 1, length: 1 };
  const pieces = boxes.map(([x, y, z, dx, dy, dz]) => ({
    part,
    copy: 0,
    from: { x, y, z },
    to: { x: x + dx, y: y + dy, z: z + dz },
  }));
  const most = (/** @type {'x' | 'y' | 'z'} */ axis) => Math.max(...pieces.map((p) => p.to[axis]));
  const extents = { from: { x: 0, y: 0, z: 0 }, to: { x: most('x'), y: most('y'), z: most('z') } };
  return { pieces, extents, unplaced: [], problems: [] };
}

/** @typedef {import('@kerfbook/drawing').Eye} Eye */

/** @type {readonly (readonly [import('@kerfbook/drawing').View, Eye])[]} */
const SQUARE_ON = [
  ['plan', { azimuth: 0, elevation: 90 }],
  ['front', { azimuth: 0, elevation: 0 }],
  ['end', { azimuth: 90, elevation: 0 }],
];

/** @param {number} round @returns {Eye} */
const turned = (round) => ({ azimuth: round * 1.7, elevation: 25 });

/**
 * The same solids as other objects, of which nothing is remembered.
 * @param {readonly import('@kerfbook/solids').Solid[]} solids
 */
const unknown = (solids) => solids.map((solid) => ({ ...solid }));

/** @param {readonly number[]} times @param {number} share */
const at = (times, share) =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length * share)] ?? 0;

/**
 * @param {string} label
 * @param {(round: number) => unknown} cells
 * @param {(round: number) => unknown} [before] timed in turn with it
 */
function compare(label, cells, before) {
  /** @type {{ cells: number[], before: number[] }} */
  const times = { cells: [], before: [] };
  for (let round = 0; round < ROUNDS + WARM_UP; round += 1) {
    for (const [name, run] of /** @type {const} */ ([
      ['before', before],
      ['cells', cells],
    ])) {
      if (run === undefined) continue;
      const began = spent();
      if (run(round) === undefined) throw new Error(`${label} drew nothing`);
      if (round >= WARM_UP) times[name].push(spent() - began);
    }
  }
  const ms = at(times.cells, 0.5);
  const figures = [ms, at(times.cells, 0.95)];
  if (before !== undefined) figures.push(at(times.before, 0.5), at(times.before, 0.5) / ms);
  console.log(label.padEnd(46) + figures.map((f) => f.toFixed(2).padStart(10)).join(''));
}

/** Milliseconds of the processor's time, so that what else runs on it counts less. */
function spent() {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

console.log(
  'ms'.padEnd(46) +
    ['median', '95 %', 'before', 'before/now'].map((word) => word.padStart(10)).join(''),
);
for (const count of [40, 200]) {
  const boxes = boxesOf(count);
  const scene = sceneOf(boxes);
  const solids = boxes.map(([x, y, z, dx, dy, dz]) => box(x, y, z, dx, dy, dz));
  const ready = prepareSolids(solids);
  compare(
    `${count} boxes: lines of three views, made ready`,
    () => {
      const anew = prepareSolids(unknown(solids));
      return SQUARE_ON.map(([, eye]) => viewSolids(anew, eye, { backs: true }));
    },
    () => SQUARE_ON.map(([view]) => project(scene, view)),
  );
  compare(
    `${count} boxes: lines of three views, asked again`,
    () => SQUARE_ON.map(([, eye]) => viewSolids(ready, eye, { backs: true })),
    () => SQUARE_ON.map(([view]) => project(scene, view)),
  );
  compare(
    `${count} boxes: a step of a turn, with faces`,
    (round) => viewSolids(ready, turned(round), { facets: true }),
    (round) => parallelView(scene, turned(round)),
  );
}
for (const parts of [40, 200]) {
  const { solids, joints } = mixedParts(parts);
  const ready = prepareSolids(solids);
  const cells = solids.reduce((sum, solid) => sum + solid.cells.length, 0);
  const facets = solids.reduce((sum, solid) => sum + solid.facets.length, 0);
  console.log(`${parts} parts with ${joints} joints: ${cells} cells, ${facets} facets`);
  /** @param {number} round */
  const changed = (round) => {
    const one = (7 * round) % parts;
    return prepareSolids([
      ...solids.slice(0, one),
      ...unknown(solids.slice(one, one + 1)),
      ...solids.slice(one + 1),
    ]);
  };
  const allNew = () => prepareSolids(unknown(solids));
  /** @param {import('@kerfbook/drawing').PreparedSolids} made @param {boolean} facets */
  const threeViews = (made, facets) =>
    SQUARE_ON.map(([, eye]) => viewSolids(made, eye, { backs: true, facets }));
  const boxes = sceneOf(boxesOf(parts));
  compare('  made ready, one changed', changed, allNew);
  for (const facets of [false, true]) {
    compare(
      facets ? '  three views with faces, one changed' : '  lines of three views, one changed',
      (round) => threeViews(changed(round), facets),
      () => threeViews(allNew(), facets),
    );
  }
  compare('  lines of a step of a turn', (round) => viewSolids(ready, turned(round)));
  compare(
    '  a step of a turn',
    (round) => viewSolids(ready, turned(round), { facets: true }),
    (round) => parallelView(boxes, turned(round)),
  );
}

/**
 * Shaped parts as pieces of a scene, the box around each found anew.
 * @param {readonly import('@kerfbook/solids').Solid[]} solids
 * @returns {import('@kerfbook/drawing').Scene}
 */
function shapedScene(solids) {
  const pieces = solids.map((solid, row) => {
    const at = { sheet: 's1', row, column: 0 };
    const part = {
      at,
      countAt: at,
      name: `Part ${row}`,
      count: 1,
      thickness: 1,
      width: 1,
      length: 1,
    };
    const points = solid.facets.flatMap((facet) => facet.points);
    const [x = [], y = [], z = []] = [0, 1, 2].map((k) => points.map((point) => point[k] ?? 0));
    const from = { x: Math.min(...x), y: Math.min(...y), z: Math.min(...z) };
    const to = { x: Math.max(...x), y: Math.max(...y), z: Math.max(...z) };
    return { part, copy: 0, from, to, solid };
  });
  const least = (/** @type {'x' | 'y' | 'z'} */ axis) =>
    Math.min(...pieces.map((p) => p.from[axis]));
  const most = (/** @type {'x' | 'y' | 'z'} */ axis) => Math.max(...pieces.map((p) => p.to[axis]));
  const extents = {
    from: { x: least('x'), y: least('y'), z: least('z') },
    to: { x: most('x'), y: most('y'), z: most('z') },
  };
  return { pieces, extents, unplaced: [], problems: [] };
}

/** @param {number} mm */
const format = (mm) => mm.toFixed(1);
for (const parts of [40, 200, 300]) {
  const { solids } = mixedParts(parts);
  const scene = shapedScene(solids);
  console.log(`a scene of ${parts} shaped parts`);
  compare('  what runs into what, and what floats', () => findClashes(scene, { format }));
  compare('  moved apart', () => explode(scene));
  compare('  three views as SVG, made ready', () =>
    drawFlat({ ...scene, pieces: [...scene.pieces] }, 'metric', {
      views: ['plan', 'front', 'end'],
      format,
    }),
  );
  const boxes = sceneOf(boxesOf(parts));
  compare(
    '  a step of a turn, shaded',
    (round) => parallelView(scene, turned(round)),
    (round) => parallelView(boxes, turned(round)),
  );
}
