import { PAPER } from '../paper.ts';
import { LAYERS, LINE_TYPES } from './layers.ts';
import { type Handles, point, real, type Tag, text, whole } from './tags.ts';

interface TablesInput {
  readonly handles: Handles;
  /** Units of the file for one paper unit. */
  readonly paper: number;
  /** Around everything, in the file's units. */
  readonly extents: readonly [left: number, bottom: number, right: number, top: number];
  /** Names of the blocks and the handles of their records. */
  readonly blocks: readonly (readonly [name: string, record: string])[];
}

/** The tables a reader of AC1015 expects, in the order it expects them. */
export function tables(input: TablesInput): Tag[] {
  const { handles, blocks } = input;
  return [
    ...table('VPORT', handles, [viewport(input)]),
    ...table(
      'LTYPE',
      handles,
      LINE_TYPES.map(({ name, says, dashes }) => lineType(name, says, dashes, input.paper)),
    ),
    ...table(
      'LAYER',
      handles,
      [{ name: '0', lineType: 'CONTINUOUS', width: 25 }, ...Object.values(LAYERS)].map(
        ({ name, lineType: type, width }) => [
          text(100, 'AcDbLayerTableRecord'),
          text(2, name),
          whole(70, 0),
          whole(62, 7),
          text(6, type),
          whole(370, width),
        ],
      ),
    ),
    ...table('STYLE', handles, [textStyle()]),
    ...table('VIEW', handles, []),
    ...table('UCS', handles, []),
    ...table('APPID', handles, [
      [text(100, 'AcDbRegAppTableRecord'), text(2, 'ACAD'), whole(70, 0)],
    ]),
    ...table('DIMSTYLE', handles, [dimensionStyle(input.paper)]),
    ...blockRecords(handles, blocks),
  ];
}

/** Like the other tables, but its records have their handles already, as entities point at them. */
function blockRecords(handles: Handles, blocks: TablesInput['blocks']): Tag[] {
  const own = handles.take();
  return [
    ...tableHead('BLOCK_RECORD', own, blocks.length),
    ...blocks.flatMap(([name, record]) => [
      text(0, 'BLOCK_RECORD'),
      text(5, record),
      text(330, own),
      text(100, 'AcDbSymbolTableRecord'),
      text(100, 'AcDbBlockTableRecord'),
      text(2, name),
    ]),
    text(0, 'ENDTAB'),
  ];
}

function table(name: string, handles: Handles, records: readonly (readonly Tag[])[]): Tag[] {
  const own = handles.take();
  // A dimension style's handle has a code of its own; everything else uses 5.
  const code = name === 'DIMSTYLE' ? 105 : 5;
  return [
    ...tableHead(name, own, records.length),
    ...(name === 'DIMSTYLE' ? [text(100, 'AcDbDimStyleTable')] : []),
    ...records.flatMap((record) => [
      text(0, name),
      text(code, handles.take()),
      text(330, own),
      text(100, 'AcDbSymbolTableRecord'),
      ...record,
    ]),
    text(0, 'ENDTAB'),
  ];
}

const tableHead = (name: string, handle: string, count: number): Tag[] => [
  text(0, 'TABLE'),
  text(2, name),
  text(5, handle),
  text(330, '0'),
  text(100, 'AcDbSymbolTable'),
  whole(70, count),
];

function viewport({ extents: [left, bottom, right, top] }: TablesInput): Tag[] {
  const flat = (code: number, x: number, y: number): Tag[] => [real(code, x), real(code + 10, y)];
  const [wide, tall] = [right - left, top - bottom];
  return [
    text(100, 'AcDbViewportTableRecord'),
    text(2, '*ACTIVE'),
    whole(70, 0),
    ...flat(10, 0, 0),
    ...flat(11, 1, 1),
    ...flat(12, (left + right) / 2, (bottom + top) / 2),
    ...flat(13, 0, 0),
    ...flat(14, 1, 1),
    ...flat(15, 1, 1),
    ...point(16, 0, 0).slice(0, 2),
    real(36, 1),
    ...point(17, 0, 0),
    real(40, tall),
    real(41, wide / tall),
    real(42, 50),
  ];
}

function lineType(name: string, says: string, dashes: readonly number[], paper: number): Tag[] {
  const total = dashes.reduce((sum, dash) => sum + Math.abs(dash), 0);
  return [
    text(100, 'AcDbLinetypeTableRecord'),
    text(2, name),
    whole(70, 0),
    text(3, says),
    whole(72, 65),
    whole(73, dashes.length),
    real(40, total * paper),
    ...dashes.flatMap((dash) => [real(49, dash * paper), whole(74, 0)]),
  ];
}

const textStyle = (): Tag[] => [
  text(100, 'AcDbTextStyleTableRecord'),
  text(2, 'Standard'),
  whole(70, 0),
  real(40, 0),
  real(41, 1),
  real(50, 0),
  whole(71, 0),
  real(42, 2.5),
  text(3, 'txt'),
  text(4, ''),
];

/** Text above its line and along it (ISO 129-1), with the sizes the layout used. */
const dimensionStyle = (paper: number): Tag[] => [
  text(100, 'AcDbDimStyleTableRecord'),
  text(2, 'Standard'),
  whole(70, 0),
  real(40, 1),
  real(41, PAPER.arrow * paper),
  real(42, PAPER.gap * paper),
  real(44, PAPER.overrun * paper),
  real(140, PAPER.text * paper),
  real(147, PAPER.lift * paper),
  whole(73, 0),
  whole(74, 0),
  whole(77, 1),
];
