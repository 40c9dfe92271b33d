/** Dashes and gaps in paper units, as in the SVG's styles; a gap is negative. */
interface LineType {
  readonly name: string;
  readonly says: string;
  readonly dashes: readonly number[];
}

/** Line types after ISO 128, under the names by which drafting programs know them. */
export const LINE_TYPES: readonly LineType[] = [
  { name: 'CONTINUOUS', says: 'Solid line', dashes: [] },
  { name: 'HIDDEN', says: 'Short dashes', dashes: [4, -2.5] },
  { name: 'CENTER', says: 'Long dash, dot', dashes: [12, -2, 1.5, -2] },
  { name: 'PHANTOM', says: 'Long dash, two dots', dashes: [12, -2, 1.5, -2, 1.5, -2] },
];

interface Layer {
  readonly name: string;
  readonly lineType: string;
  /** Hundredths of a millimetre. */
  readonly width: number;
}

const THICK = 50;
const THIN = 25;

export const LAYERS = {
  visible: { name: 'Visible', lineType: 'CONTINUOUS', width: THICK },
  hidden: { name: 'Hidden', lineType: 'HIDDEN', width: THIN },
  dimension: { name: 'Dimension', lineType: 'CONTINUOUS', width: THIN },
  grain: { name: 'Grain', lineType: 'CONTINUOUS', width: THIN },
  movement: { name: 'Movement', lineType: 'PHANTOM', width: THIN },
  trace: { name: 'Trace', lineType: 'CENTER', width: THIN },
  floor: { name: 'Floor', lineType: 'CONTINUOUS', width: THIN },
  hatch: { name: 'Hatch', lineType: 'CONTINUOUS', width: THIN },
  adjacent: { name: 'Adjacent', lineType: 'PHANTOM', width: THIN },
  center: { name: 'Center', lineType: 'CENTER', width: THIN },
  break: { name: 'Break', lineType: 'CONTINUOUS', width: THIN },
  text: { name: 'Text', lineType: 'CONTINUOUS', width: THIN },
} as const satisfies Readonly<Record<string, Layer>>;

export type LayerName = keyof typeof LAYERS;
