import type { OpenWorkbook } from '@kerfbook/workbook';
import { captionOf, floorLine } from '../captions.ts';
import type { JointDetail } from '../details/detail.ts';
import { detailName } from '../details/detail-words.ts';
import { grainArrows } from '../grain.ts';
import { PAPER } from '../paper.ts';
import { SQUARE_ON } from '../shapes/square-on.ts';
import { cornersOnCurves, trueLines } from '../shapes/true-curves.ts';
import type { Sheet } from '../sheet.ts';
import type { CurveTemplate } from '../templates/curve-templates.ts';
import { ownFromMm } from '../units.ts';
import type { Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import {
  type Arrangement,
  arrange,
  detailFrame,
  type Moved,
  type Picture,
  pictureFrame,
} from './arrange.ts';
import { dimensionEntity, dimensionPicture } from './dimension.ts';
import { arrowhead, curves, lines, type Placement, type Space, writing } from './entities.ts';
import type { LayerName } from './layers.ts';
import { tables } from './tables.ts';
import { Handles, point, real, section, type Tag, text, whole, written } from './tags.ts';

/** What {@link toDxf} puts into a file. */
export interface DxfInput {
  /** Views square on, with their dimensions. */
  readonly sheets: readonly Sheet[];
  /** Parallel projections, such as the whole and the pieces moved apart. */
  readonly pictures?: readonly Picture[];
  /** Sections through joints. */
  readonly details?: readonly JointDetail[];
}

/** Paper units that what is drawn is as wide as: the long side of an A3 sheet, mm. */
const ACROSS = 420;

type Extents = readonly [left: number, bottom: number, right: number, top: number];

const INCHES = 1;
const MILLIMETRES = 4;

/**
 * Views as a DXF file (AC1015, ASCII): all at full size in inches or millimetres, as the header
 * says, one layer for each kind of line, dimensions as dimensions. Undefined when there is nothing
 * to draw. The same input always gives the same text.
 */
export function toDxf(
  { sheets, pictures = [], details = [] }: DxfInput,
  units: OpenWorkbook['units'],
): string | undefined {
  const unit = sheets[0]?.unit ?? unitOf(pictures);
  if (unit === undefined) return undefined;
  const scale = ownFromMm(1, units);
  const arrangement = arrange(sheets, pictures, details, unit);
  const handles = new Handles();
  const model = handles.take();
  const paper = handles.take();
  const sizes = [...arrangement.sheets, ...arrangement.details].flatMap(({ what, dx, dy }) =>
    what.layout.dimensions.map((one) => ({ one, unit: what.unit, placement: { scale, dx, dy } })),
  );
  const blocks = sizes.map(({ one, unit: own, placement }, index) => {
    const record = handles.take();
    const space: Space = { handles, owner: record, placement };
    return { name: `*D${index + 1}`, record, shows: dimensionPicture(one, own, space) };
  });
  const spaceOf = (placement: Placement): Space => ({ handles, owner: model, placement });
  const entities = [
    ...arrangement.sheets.flatMap((moved) => sheetTags(moved, units, spaceOf(at(moved, scale)))),
    ...sizes.flatMap(({ one, placement }, index) =>
      dimensionEntity(one, `*D${index + 1}`, spaceOf(placement)),
    ),
    ...arrangement.pictures.flatMap((moved) => pictureTags(moved, unit, spaceOf(at(moved, scale)))),
    ...arrangement.details.flatMap((moved) => detailTags(moved, spaceOf(at(moved, scale)))),
  ];
  return fileOf(
    {
      handles,
      model,
      paper,
      blocks,
      entities,
      unit,
      scale,
      extents: extentsOf(arrangement, scale),
    },
    units,
  );
}

/**
 * The outline of a part with a curve as a DXF file of its own, at full size from its lower left corner on: curves as
 * curves, and the lines about which it is turned over where it is not whole.
 */
export function patternToDxf(
  { outline, centers, bounds, onCurves }: CurveTemplate,
  units: OpenWorkbook['units'],
): string {
  const scale = ownFromMm(1, units);
  const [width, height] = [bounds.right - bounds.left, bounds.top - bounds.bottom];
  const handles = new Handles();
  const [model, paper] = [handles.take(), handles.take()];
  const placement = { scale, dx: -bounds.left, dy: -bounds.bottom };
  const space: Space = { handles, owner: model, placement };
  const entities = [
    ...outlines(outline, 'visible', onCurves, space),
    ...lines(centers, 'center', space),
  ];
  const unit = Math.max(width, height) / ACROSS;
  const extents = [0, 0, width * scale, height * scale] as const;
  return fileOf({ handles, model, paper, blocks: [], entities, unit, scale, extents }, units);
}

interface FileParts {
  readonly handles: Handles;
  /** Handles of the records of the model's space and the paper's. */
  readonly model: string;
  readonly paper: string;
  readonly blocks: readonly Block[];
  readonly entities: readonly Tag[];
  /** mm for one paper unit. */
  readonly unit: number;
  readonly scale: number;
  /** In the file's unit. */
  readonly extents: Extents;
}

function fileOf(
  { handles, model, paper, blocks, entities, unit, scale, extents }: FileParts,
  units: OpenWorkbook['units'],
): string {
  const all = [
    { name: '*Model_Space', record: model, shows: [] },
    { name: '*Paper_Space', record: paper, shows: [] },
    ...blocks,
  ];
  const body = [
    ...section('CLASSES', []),
    ...section(
      'TABLES',
      tables({
        handles,
        paper: unit * scale,
        extents,
        blocks: all.map(({ name, record }) => [name, record] as const),
      }),
    ),
    ...section(
      'BLOCKS',
      all.flatMap((block) => blockTags(block, handles)),
    ),
    ...section('ENTITIES', entities),
    ...section('OBJECTS', objects(handles)),
  ];
  // Last, as the header has to know how many handles were given.
  const head = section('HEADER', header(units, extents, handles));
  return written([...head, ...body, text(0, 'EOF')]);
}

const at = ({ dx, dy }: Moved<unknown>, scale: number): Placement => ({ scale, dx, dy });

function unitOf(pictures: readonly Picture[]): number | undefined {
  const [first] = pictures;
  if (first === undefined) return undefined;
  const { left, right, bottom, top } = first.view.bounds;
  return Math.max(right - left, top - bottom) / ACROSS;
}

function extentsOf({ frame }: Arrangement, scale: number): Extents {
  return [frame.left * scale, frame.bottom * scale, frame.right * scale, frame.top * scale];
}

function header(
  units: OpenWorkbook['units'],
  [left, bottom, right, top]: Extents,
  handles: Handles,
): Tag[] {
  const us = units === 'us';
  const variable = (name: string, ...tags: readonly Tag[]): Tag[] => [text(9, name), ...tags];
  return [
    ...variable('$ACADVER', text(1, 'AC1015')),
    ...variable('$DWGCODEPAGE', text(3, 'ANSI_1252')),
    ...variable('$INSUNITS', whole(70, us ? INCHES : MILLIMETRES)),
    ...variable('$MEASUREMENT', whole(70, us ? 0 : 1)),
    ...variable('$LUNITS', whole(70, 2)),
    ...variable('$LTSCALE', real(40, 1)),
    ...variable('$EXTMIN', ...point(10, left, bottom)),
    ...variable('$EXTMAX', ...point(10, right, top)),
    ...variable('$HANDSEED', text(5, handles.seed)),
  ];
}

function sheetTags(
  { what: sheet }: Moved<Sheet>,
  units: OpenWorkbook['units'],
  space: Space,
): Tag[] {
  const { projection, movement, frame, unit } = sheet;
  const plan = projection.view === 'plan';
  const height = PAPER.text * unit;
  const pieces = projection.pieces.map(({ piece }) => piece);
  const onCurves = cornersOnCurves(pieces, SQUARE_ON[projection.view]);
  return [
    ...outlines(projection.visible, 'visible', onCurves, space),
    ...outlines(projection.hidden, 'hidden', onCurves, space),
    ...lines(plan ? grainArrows(projection, unit) : [], 'grain', space),
    ...lines(plan ? [] : [floorLine(sheet)], 'floor', space),
    ...lines(movement?.lines ?? [], 'movement', space),
    ...lines(movement?.leaders ?? [], 'text', space),
    ...(movement?.arrows ?? []).flatMap((arrow) => arrowhead(arrow, unit, 'text', space)),
    ...(movement?.labels ?? []).flatMap((label) => writing({ ...label, height }, 'text', space)),
    ...(sheet.layout.callouts ?? []).flatMap(({ lines: own, label }) => [
      ...lines(own, 'dimension', space),
      ...writing({ ...label, height }, 'dimension', space),
    ]),
    ...caption(captionOf(projection.view, units), frame, unit, space),
  ];
}

function pictureTags({ what }: Moved<Picture>, unit: number, space: Space): Tag[] {
  const { name, view } = what;
  const pieces = view.pieces.map(({ piece }) => piece);
  return [
    ...outlines(view.visible, 'visible', cornersOnCurves(pieces, view.eye), space),
    ...lines(view.traces, 'trace', space),
    ...caption(`${name}, not to scale`, pictureFrame(what, unit), unit, space),
  ];
}

/** A joint cut open: at full size as all else, written smaller, so that it can be printed larger. */
function detailTags({ what: detail }: Moved<JointDetail>, space: Space): Tag[] {
  const { faces, loose, middles, adjacent, breaks, marks, onCurves, unit } = detail;
  return [
    ...faces.flatMap(({ lines: own, hatch }) => [
      ...outlines(own, 'visible', onCurves, space),
      ...lines(hatch, 'hatch', space),
    ]),
    ...lines(loose, 'visible', space),
    ...lines(middles, 'center', space),
    ...outlines(adjacent, 'adjacent', onCurves, space),
    ...lines(breaks, 'break', space),
    ...lines(
      marks.flatMap((one) => one.lines),
      'break',
      space,
    ),
    ...caption(detailName(detail), detailFrame(detail), unit, space),
  ];
}

/** What stands for curves as curves, the rest as lines. */
function outlines(
  segments: readonly Segment[],
  layer: LayerName,
  onCurves: Outline,
  space: Space,
): Tag[] {
  const found = trueLines(segments, onCurves);
  return [...lines(found.lines, layer, space), ...curves(found.curves, layer, space)];
}

const caption = (
  says: string,
  { left, bottom }: { readonly left: number; readonly bottom: number },
  unit: number,
  space: Space,
): Tag[] =>
  writing(
    {
      text: says,
      x: left + PAPER.edge * unit,
      y: bottom + PAPER.edge * unit,
      height: PAPER.caption * unit,
      from: 'left',
    },
    'text',
    space,
  );

interface Block {
  readonly name: string;
  readonly record: string;
  readonly shows: readonly Tag[];
}

function blockTags({ name, record, shows }: Block, handles: Handles): Tag[] {
  const part = (kind: string, type: string): Tag[] => [
    text(0, kind),
    text(5, handles.take()),
    text(330, record),
    text(100, 'AcDbEntity'),
    text(8, '0'),
    text(100, type),
  ];
  return [
    ...part('BLOCK', 'AcDbBlockBegin'),
    text(2, name),
    whole(70, name.startsWith('*D') ? 1 : 0),
    ...point(10, 0, 0),
    text(3, name),
    text(1, ''),
    ...shows,
    ...part('ENDBLK', 'AcDbBlockEnd'),
  ];
}

/** The least a reader expects: a root that holds an empty list of groups. */
function objects(handles: Handles): Tag[] {
  const [root, groups] = [handles.take(), handles.take()];
  const dictionary = (handle: string, owner: string): Tag[] => [
    text(0, 'DICTIONARY'),
    text(5, handle),
    text(330, owner),
    text(100, 'AcDbDictionary'),
    whole(281, 1),
  ];
  return [
    ...dictionary(root, '0'),
    text(3, 'ACAD_GROUP'),
    text(350, groups),
    ...dictionary(groups, root),
  ];
}
