import type { BookDocument, CellDocument, Scalar } from '@kerfbook/document';

/** One way in which a table that can be built is made one that cannot. */
export interface Plant {
  /** What was done to it. */
  readonly name: string;
  /** The rule that must find it. */
  readonly kind: string;
  /** What its sentence must say. */
  readonly says: RegExp;
  /** Inputs by their names. */
  readonly inputs?: Readonly<Record<string, Scalar>>;
  /** Cells that get other formulas, by their names. */
  readonly formulas?: Readonly<Record<string, string>>;
  /** A cell of the parts table: its part, its heading, what it holds then. */
  readonly part?: readonly [string, string, CellDocument];
  /** Every line of stock gets this under a heading. */
  readonly stock?: readonly [string, CellDocument];
  /** Found only where the boards are planned. */
  readonly planned?: true;
}

const length = (value: number): CellDocument => ({ value, quantity: 'length' });
const count = (value: number): CellDocument => ({ value, quantity: 'count' });

/** The base table is the template's own: 84 × 42 in, legs of 3 1/2 in, aprons of 1 1/2 × 3 1/2 in. */
export const PLANTS: readonly Plant[] = [
  {
    name: 'a round top that is longer than wide',
    kind: 'not-round',
    says: /84 in by 42 in is not round/,
    inputs: { top_shape: 'round' },
  },
  {
    name: 'an oval top from under which the legs stand out',
    kind: 'leg-out',
    says: /legs stand out/,
    inputs: { top_shape: 'oval' },
  },
  {
    name: 'corners so round that the legs stand out',
    kind: 'leg-out',
    says: /legs stand out/,
    inputs: { top_shape: 'rounded corners', corner_radius: 21, overhang_end: 2 },
  },
  {
    name: 'corners that are rounder than the top is wide',
    kind: 'corner',
    says: /No corner of 22 in/,
    inputs: { top_shape: 'rounded corners', corner_radius: 22 },
  },
  {
    name: 'legs that taper to more than they are',
    kind: 'foot',
    says: /3\.5 in taper to 4 in/,
    inputs: { leg_shape: 'tapered on four faces', leg_foot: 4 },
  },
  {
    name: 'a taper that begins at the floor',
    kind: 'taper',
    says: /steeper than a bevel/,
    inputs: { leg_shape: 'tapered on two inside faces', table_height: 20, taper_below: 14 },
  },
  {
    name: 'feet that stand in so far that it tips',
    kind: 'tips',
    says: /on the end tips it/,
    inputs: { leg_shape: 'tapered on four faces', overhang_end: 17, leg_size: 6, leg_foot: 2 },
  },
  {
    name: 'legs thinner than apron and set-back',
    kind: 'leg-thin',
    says: /thinner than apron and set-back/,
    inputs: { apron_setback: 2.5 },
  },
  {
    name: 'aprons set back past the legs',
    kind: 'floats',
    says: /long apron touches nothing/,
    inputs: { apron_setback: 3.75 },
  },
  {
    name: 'aprons that run through one another inside the legs',
    kind: 'clash',
    says: /long apron and short apron take up the same room/,
    inputs: { leg_size: 1.5 },
  },
  {
    name: 'legs that meet along the table',
    kind: 'legs',
    says: /legs along the table/,
    inputs: { top_length: 24.5 },
  },
  {
    name: 'legs that meet across the table',
    kind: 'legs',
    says: /legs across the table/,
    inputs: { overhang_side: 17.25 },
  },
  {
    name: 'an apron that reaches the floor',
    kind: 'apron-deep',
    says: /reaches the floor/,
    inputs: { apron_width: 28.5 },
  },
  {
    name: 'a support without thickness',
    kind: 'size',
    says: /cross support of 0 in/,
    inputs: { support_thickness: 0 },
  },
  {
    name: 'a top thinner than veneer',
    kind: 'size',
    says: /top of .* 0\.1 in/,
    inputs: { top_thickness: 0.1 },
  },
  {
    name: 'supports shorter than nothing',
    kind: 'size',
    says: /cross support of .*-/,
    inputs: { apron_setback: 18 },
  },
  {
    name: 'supports that stand in one another',
    kind: 'supports-meet',
    says: /no room between them/,
    inputs: { support_gap: 1.25 },
  },
  {
    name: 'knees that hit the aprons',
    kind: 'knees',
    says: /Under the apron/,
    inputs: { apron_width: 7 },
  },
  {
    name: 'knees that hit the supports',
    kind: 'knees',
    says: /Under the cross support/,
    inputs: { support_width: 6 },
  },
  {
    name: 'knees that no standard would take',
    kind: 'knees',
    says: /knees want 24 in/,
    inputs: { apron_width: 5, least_knee_room: 16 },
  },
  {
    name: 'a tenon too short to hold',
    kind: 'tenon-short',
    says: /too short to hold/,
    inputs: { tenon_length: 0.25 },
  },
  {
    name: 'a tenon through the leg',
    kind: 'tenon-through',
    says: /comes through a leg/,
    inputs: { tenon_length: 3.5 },
  },
  {
    name: 'a tenon that leaves a skin of the leg',
    kind: 'tenon-deep',
    says: /leaves 0\.125 in of the leg/,
    inputs: { tenon_length: 3.375 },
  },
  {
    name: 'tenons that meet in the leg',
    kind: 'tenons-meet',
    says: /they meet/,
    inputs: { tenon_length: 2.25 },
  },
  {
    name: 'a mortise at the face of the leg',
    kind: 'mortise-wall',
    says: /wall of .* outside in the leg/,
    inputs: { tenon_length: 1.25, apron_setback: 0, apron_thickness: 0.625 },
  },
  {
    name: 'a groove narrower than the blade',
    kind: 'groove-narrow',
    says: /No blade of 0\.25 in/,
    inputs: { kerf: 0.25, groove_width: 0.125 },
  },
  {
    name: 'a groove that opens at the edge',
    kind: 'groove-edge',
    says: /nothing holds/,
    inputs: { groove_edge: 0 },
  },
  {
    name: 'a groove below the apron',
    kind: 'groove-low',
    says: /Under the groove are -/,
    inputs: { groove_edge: 4 },
  },
  {
    name: 'a groove wider than the apron',
    kind: 'groove-low',
    says: /Under the groove are -/,
    inputs: { groove_width: 3.25 },
  },
  {
    name: 'a top thicker than its boards',
    kind: 'top-thick',
    says: /8\/4 plane to 1\.75 in: no top of 2 in/,
    inputs: { top_thickness: 2 },
  },
  {
    name: 'boards that do not add up to the top',
    kind: 'panel-sum',
    says: /come to .* and not 42 in/,
    part: ['Top', 'board width', length(5)],
  },
  {
    name: 'boards shorter than the top',
    kind: 'panel-short',
    says: /make no such top/,
    part: ['Top', 'board length', length(83)],
  },
  {
    name: 'a top of strips',
    kind: 'strip',
    says: /strips/,
    inputs: { widest_board: 0.75 },
  },
  {
    name: 'boards wider than the jointer',
    kind: 'board-wide',
    says: /jointer is 4 in/,
    inputs: { jointer_width: 4 },
  },
  {
    name: 'boards wider than the widest that was wanted',
    kind: 'board-wide',
    says: /widest board wanted is 5\.5 in/,
    formulas: { panel_boards: '=ROUNDDOWN(top_width/widest_board,0)' },
  },
  {
    name: 'a top longer than any board',
    kind: 'stock',
    says: /board of the top .* comes out of no board/,
    inputs: { top_length: 150 },
  },
  {
    name: 'legs longer than any blank',
    kind: 'stock',
    says: /A leg of .* comes out of no board/,
    inputs: { table_height: 40 },
  },
  {
    name: 'aprons thicker than any board',
    kind: 'stock',
    says: /long apron of 2 in/,
    inputs: { apron_thickness: 2, pocket_screw: 0 },
  },
  {
    name: 'stock that is too narrow',
    kind: 'stock',
    says: /board of the top/,
    stock: ['width', length(4)],
  },
  {
    name: 'stock that is used up',
    kind: 'stock',
    says: /leg of .* 4 pieces/,
    stock: ['at hand', count(1)],
  },
  {
    name: 'stock of another wood',
    kind: 'stock',
    says: /board of the top/,
    stock: ['material', { value: 'white oak', quantity: 'text' }],
  },
  {
    name: 'an end that tips',
    kind: 'tips',
    says: /on the end tips it/,
    inputs: { overhang_end: 20 },
  },
  {
    name: 'a side that tips',
    kind: 'tips',
    says: /on the side tips it/,
    inputs: { overhang_side: 14.5 },
  },
  {
    name: 'an edge that a child tips',
    kind: 'tips',
    says: /40 lbf may lean/,
    inputs: { overhang_side: 17, lean_load: 0 },
  },
  {
    name: 'aprons that sag',
    kind: 'bends',
    says: /long apron bends/,
    inputs: { apron_width: 2 },
  },
  {
    name: 'a top that sags between its bearers',
    kind: 'bends',
    says: /top between its bearers bends/,
    inputs: { top_thickness: 0.5 },
  },
  {
    name: 'an end of the top that hangs down',
    kind: 'bends',
    says: /overhanging end bends/,
    inputs: { top_thickness: 0.5, overhang_end: 14 },
  },
  {
    name: 'an apron that breaks',
    kind: 'breaks',
    says: /long apron may break/,
    inputs: { apron_width: 1.25 },
  },
  {
    name: 'a screw through the top',
    kind: 'screw-through',
    says: /leaves -0\.125 in of the top/,
    inputs: { top_screw: 1.75 },
  },
  {
    name: 'a screw too short to hold',
    kind: 'screw-short',
    says: /to hold/,
    inputs: { top_screw: 0.5 },
  },
  {
    name: 'fasteners that meet in the middle',
    kind: 'fasteners-meet',
    says: /Fasteners 15 in from each leg meet/,
    inputs: { fastener_end: 15 },
  },
  {
    name: 'buttons as wide as they are apart',
    kind: 'fasteners-beside',
    says: /a button takes 4 in: they meet/,
    inputs: { tongue_width: 4, fastener_spacing: 4 },
  },
  {
    name: 'buttons that run into the legs',
    kind: 'fastener-leg',
    says: /A button 0\.25 in from the leg/,
    inputs: { fastener_end: 0.25 },
  },
  {
    name: 'slots as long as their aprons are thick',
    kind: 'slot-out',
    says: /across the long aprons leaves 0 in/,
    inputs: { fastener_long: 'slotted screw', slot_cut: 1.5 },
  },
  {
    name: 'a result that is an error',
    kind: 'error',
    says: /is an error/,
    formulas: { price_per_seat: '=price/0' },
  },
  {
    name: 'a size below nothing',
    kind: 'number',
    says: /joint_loss is -1/,
    inputs: { joint_loss: -1 },
  },
  {
    name: 'a leg missing in the parts table',
    kind: 'parts-differ',
    says: /has no leg/,
    part: ['Leg', 'count', count(3)],
  },
  {
    name: 'an apron drawn in the air',
    kind: 'parts-differ',
    says: /has no long apron/,
    part: ['Long apron', 'z', length(10)],
  },
  {
    name: 'a part of another wood',
    kind: 'material',
    says: /Short apron is of pine/,
    part: ['Short apron', 'material', { value: 'pine', quantity: 'text' }],
  },
  {
    name: 'a cut list with one board too few',
    kind: 'cut-list',
    says: /cut list has no .* cross support/,
    part: ['Cross support', 'count', count(1)],
  },
  {
    name: 'a plan that leaves parts out',
    kind: 'left-out',
    says: /plan leaves out/,
    stock: ['at hand', count(2)],
    planned: true,
  },
  {
    name: 'a price below the wood',
    kind: 'price',
    says: /less than wood, hours and profit take/,
    formulas: { price: '=cost_labour' },
  },
  {
    name: 'a quote below the wood',
    kind: 'quote',
    says: /quote of 500/,
    inputs: { quoted_price: 500 },
  },
  {
    name: 'a groove through the apron',
    kind: 'groove-deep',
    says: /groove leaves 0\.0625 in of an apron|groove leaves 0\.063 in of an apron/,
    inputs: { groove_depth: 1.4375 },
  },
  {
    name: 'figure-8s in line with the movement',
    kind: 'moves',
    says: /in at the long aprons; fasteners let 0 in/,
    inputs: { fastener_long: 'figure-8', points_long: 'square to the apron' },
  },
  {
    name: 'figure-8s that have no room to swing',
    kind: 'moves',
    says: /at the short aprons/,
    inputs: { swivel_swing: 2 },
  },
  {
    name: 'slots that lie along the wrong way',
    kind: 'moves',
    says: /at the short aprons; fasteners let 0 in/,
    inputs: { fastener_short: 'slotted screw', points_short: 'square to the apron' },
  },
  {
    name: 'buttons hard against the aprons',
    kind: 'moves',
    says: /out at the long aprons; fasteners let 0 in/,
    inputs: { tongue_gap: 0 },
  },
  {
    name: 'buttons that slip out of the groove',
    kind: 'moves',
    says: /in at the long aprons/,
    inputs: { tongue_gap: 0.6875 },
  },
  {
    name: 'a slot shorter than the screw goes',
    kind: 'slot',
    says: /slot of 0\.2 in/,
    formulas: { slot_length: '=IN(0.2)' },
  },
  {
    name: 'a wood that nobody knows',
    kind: 'wood',
    says: /no wood that the judge knows/,
    inputs: { species: 'Unobtainium' },
  },
];

/** The workbook with a plant in it. @throws Error where there is no such cell */
export function planted(document: BookDocument, plant: Plant): BookDocument {
  const copy = structuredClone(document);
  const cells = copy.sheets.flatMap(({ rows }) =>
    rows.flatMap(({ cells = {} }) => Object.values(cells)),
  );
  const named = (name: string): CellDocument => {
    const cell = cells.find((one) => one.name === name);
    if (cell === undefined) throw new Error(`no cell ${name}`);
    return cell;
  };
  for (const [name, value] of Object.entries(plant.inputs ?? {})) {
    const cell = named(name);
    delete cell.typed;
    delete cell.formula;
    // An entry that its cell does not take is an error, and no table.
    delete cell.allow;
    cell.value = value;
  }
  for (const [name, formula] of Object.entries(plant.formulas ?? {})) named(name).formula = formula;
  if (plant.part !== undefined) setIn(copy, 'parts', plant.part);
  if (plant.stock !== undefined) setIn(copy, 'stock', [undefined, ...plant.stock]);
  return copy;
}

/** Sets a cell of a table under a heading, in the row that begins with a word, or in every row. */
function setIn(
  document: BookDocument,
  kind: string,
  [row, heading, cell]: readonly [string | undefined, string, CellDocument],
): void {
  const table = document.tables.find((one) => one.kind === kind);
  const sheet = document.sheets.find(({ id }) => id === table?.sheet);
  const header = sheet?.rows.findIndex(({ id }) => id === table?.header) ?? -1;
  const last = sheet?.rows.findIndex(({ id }) => id === table?.last) ?? -1;
  const cells = sheet?.rows[header]?.cells ?? {};
  const column = sheet?.columns.find(({ id }) => cells[id]?.value === heading)?.id;
  const first = sheet?.columns[0]?.id;
  if (sheet === undefined || column === undefined || first === undefined)
    throw new Error(`no heading ${heading}`);
  const isRow = ({ cells = {} }: (typeof sheet.rows)[number]): boolean => {
    const name = cells[first];
    if (row !== undefined) return name?.value === row;
    return name?.value !== undefined || name?.formula !== undefined;
  };
  const rows = sheet.rows.slice(header + 1, last + 1).filter(isRow);
  if (rows.length === 0) throw new Error(`no row ${row}`);
  for (const one of rows) one.cells = { ...one.cells, [column]: cell };
}
