import {
  buildScene,
  drawDxf,
  drawViews,
  drawWhole,
  findClashes,
  readParts,
} from '@kerfbook/drawing';

/**
 * From a parts table to three dimensioned views as SVG, beside the same boxes projected and written
 * with neither hidden lines nor dimensions; and a parallel projection at each step of a turn.
 * Targets: 16 ms for 200 parts, 8 ms for a step of the turn with 40 parts.
 */

const WARM_UP = 60;
const ROUNDS = 200;
const HEADER = ['Part', 'Count', 'Thickness', 'Width', 'Length', 'Grain', 'X', 'Y', 'Z', 'Turn'];

/**
 * A wall of cabinets, in mm: each is two sides, a bottom, a top, three shelves, a back, a door and a
 * plinth, ten rows of the table.
 * @param {number} parts a multiple of ten
 * @param {number} wide of one cabinet; changed from round to round, as by an edit
 */
function cabinets(parts, wide) {
  const inner = wide - 36;
  return Array.from({ length: parts / 10 }, (_, i) => {
    const x = (i % 5) * wide;
    const z = Math.floor(i / 5) * 800;
    const board = (/** @type {string} */ name, /** @type {(string | number)[]} */ ...rest) => [
      `${name} ${i + 1}`,
      1,
      ...rest,
    ];
    return [
      board('Side, left', 18, 400, 700, 'length', x, 20, z + 80, 'TWL'),
      board('Side, right', 18, 400, 700, 'length', x + wide - 18, 20, z + 80, 'TWL'),
      board('Bottom', 18, 400, inner, 'length', x + 18, 20, z + 80, 'LWT'),
      board('Top', 18, 400, inner, 'length', x + 18, 20, z + 762, 'LWT'),
      ...[250, 420, 590].map((up) =>
        board(`Shelf at ${up}`, 18, 380, inner, 'length', x + 18, 30, z + up, 'LWT'),
      ),
      board('Back', 6, wide, 700, 'length', x, 420, z + 80, 'WTL'),
      board('Door', 20, wide - 4, 696, 'length', x + 2, 0, z + 82, 'WTL'),
      board('Plinth', 18, 80, wide, 'length', x, 60, z, 'LTW'),
    ];
  }).flat();
}

/**
 * A workbook that holds this table alone.
 * @param {(string | number)[][]} rows
 * @returns {import('@kerfbook/drawing').PartsSource}
 */
function bookOf(rows) {
  const cells = [HEADER, ...rows];
  return {
    units: 'metric',
    tables: () => [{ id: 't1', kind: 'parts', sheet: 's1', header: 0, last: rows.length }],
    sheet: (id) => ({
      id,
      name: 'Parts',
      rows: cells.length,
      columns: HEADER.length,
      widths: [],
      hidden: [],
      isHidden: false,
      hiddenRows: [],
      frozenColumns: 0,
      frozenRows: 0,
      groups: [],
      mayWrap: [],
    }),
    value: ({ row, column }) => {
      const cell = cells[row]?.[column];
      if (typeof cell === 'number') return { kind: 'number', number: cell };
      return cell === undefined ? { kind: 'empty' } : { kind: 'text', text: cell };
    },
  };
}

/** @param {number} mm */
const format = (mm) => String(Math.round(mm * 10) / 10);

/**
 * Each piece's rectangle in three views, and nothing else.
 * @param {import('@kerfbook/drawing').PartsSource} source
 */
function bare(source) {
  const { pieces } = buildScene(readParts(source).parts);
  const views = /** @type {const} */ ([
    ['x', 'y'],
    ['x', 'z'],
    ['y', 'z'],
  ]);
  return views.map(([across, up]) => {
    const paths = pieces.map(
      ({ from, to }) =>
        `M${format(from[across])} ${format(-from[up])}H${format(to[across])}V${format(-to[up])}H${format(from[across])}Z`,
    );
    return `<svg xmlns="http://www.w3.org/2000/svg"><path d="${paths.join('')}"/></svg>`;
  });
}

/**
 * @param {string} label
 * @param {(round: number) => unknown} run
 * @param {(round: number) => unknown} [beside] timed in turn with it
 */
function compare(label, run, beside) {
  /** @type {number[]} */
  const ours = [];
  /** @type {number[]} */
  const others = [];
  const time = (/** @type {typeof run} */ what, /** @type {number} */ round) => {
    const began = performance.now();
    if (what(round) === undefined) throw new Error(`${label} drew nothing`);
    return performance.now() - began;
  };
  for (let round = 0; round < ROUNDS + WARM_UP; round += 1) {
    const other = beside === undefined ? undefined : time(beside, round);
    const own = time(run, round);
    if (round < WARM_UP) continue;
    ours.push(own);
    if (other !== undefined) others.push(other);
  }
  const at = (/** @type {number[]} */ times, /** @type {number} */ share) =>
    [...times].sort((a, b) => a - b)[Math.floor(times.length * share)]?.toFixed(2) ?? '';
  const figures = [at(ours, 0.5), at(ours, 0.95), at(others, 0.5)];
  console.log(`${label.padEnd(38)}${figures.map((figure) => figure.padStart(10)).join('')}`);
}

/** @param {number} parts @param {number} round */
const book = (parts, round) => bookOf(cabinets(parts, 600 + (round % 40)));
/** @param {number} parts */
const scene = (parts) => buildScene(readParts(book(parts, 0)).parts);

console.log(`${'ms'.padEnd(38)}${['median', '95 %', 'bare'].map((w) => w.padStart(10)).join('')}`);
const views = /** @type {const} */ (['plan', 'front', 'end']);
for (const parts of [40, 200]) {
  compare(
    `${parts} parts: table to three views`,
    (round) => drawViews(book(parts, round), { views, format }).svg.end,
    (round) => bare(book(parts, round)),
  );
}
for (const parts of [40, 200]) {
  const one = scene(parts);
  const eye = (/** @type {number} */ round) => ({ azimuth: round * 1.7, elevation: 25 });
  compare(`${parts} parts: a step of a turn`, (round) =>
    drawWhole(one, { format, eye: eye(round), steady: true }),
  );
  compare(`${parts} parts: a step, moved apart`, (round) =>
    drawWhole(one, { format, eye: eye(round), exploded: true, steady: true }),
  );
}
const many = scene(1000);
compare('200 parts: table to DXF', (round) => drawDxf(book(200, round), { views, format }).dxf);
compare('1,000 parts: clashes', () => findClashes(many, { format }));
