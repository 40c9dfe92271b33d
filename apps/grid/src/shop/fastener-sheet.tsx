import type { LeftOut } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { factsOf } from './facts.ts';
import { leftOutBlocks } from './left-out.tsx';
import { cautionBlock, factsBlock, headingBlock, tableBlocks, titleBlock } from './pieces.tsx';
import { facts, lengthText, lengthUnit, numberOf } from './words.ts';

/**
 * Where fasteners stand along a rail: the first and last at `end` from its ends, the others at equal
 * steps no wider than `spacing`. Lengths in one unit; from the rail's left end.
 */
export function fastenerPlaces(length: number, spacing: number, end: number): readonly number[] {
  const span = length - 2 * end;
  if (!(span >= 0) || !(spacing > 0)) return [];
  const gaps = Math.ceil(span / spacing - 1e-9);
  if (gaps === 0) return [end];
  return Array.from({ length: gaps + 1 }, (_, i) => end + (span * i) / gaps);
}

interface Rail {
  readonly says: string;
  readonly length: number;
  readonly places: readonly number[];
}

/** Cells that say where fasteners go and cannot: a rail is not passed over because of them. */
function railErrors(book: OpenWorkbook): readonly LeftOut[] {
  return ['fastener_spacing', 'fastener_end', 'clear_long', 'clear_short'].flatMap((name) => {
    const cell = book.named(name);
    if (cell?.value.kind !== 'error') return [];
    const { word, says } = cell.value.error;
    return [{ at: cell.at, what: name, says: `${word} ${says}` }];
  });
}

function railsOf(book: OpenWorkbook): readonly Rail[] {
  const spacing = numberOf(book, 'fastener_spacing');
  const end = numberOf(book, 'fastener_end');
  if (spacing === undefined || end === undefined) return [];
  return (
    [
      ['clear_long', 'Along each long apron, clear between the legs'],
      ['clear_short', 'Along each short apron, clear between the legs'],
    ] as const
  ).flatMap(([name, says]) => {
    const length = numberOf(book, name);
    if (length === undefined) return [];
    const places = fastenerPlaces(length, spacing, end);
    return places.length === 0 ? [] : [{ says, length, places }];
  });
}

/** Every fastener's distance from an end, also drawn; undefined where nothing is fastened so. */
export function fastenerSheet(book: OpenWorkbook): Block[] | undefined {
  const rails = railsOf(book);
  const errors = railErrors(book);
  if (rails.length + errors.length === 0) return undefined;
  const write = (own: number): string => lengthText(book, own);
  return [
    titleBlock(
      'fasteners',
      'Fasteners of the top',
      `From the left leg's inner face to the middle of each fastener, in ${lengthUnit(book)}.`,
    ),
    ...leftOutBlocks('fasteners', 'Left out: rails that rest on cells in error', book, errors),
    cautionBlock('fasteners careful', [
      'Hold the top fast along its centre line only; at the edges it must be free to move across the grain.',
      'Set a stop on the drill before the holes in the top: a screw that is too long comes through.',
    ]),
    ...rails.flatMap(({ says, length, places }) => [
      headingBlock(`fasteners ${says}`, `${says}: ${write(length)}`),
      {
        key: `fasteners ${says} drawn`,
        node: <RailDrawing length={length} places={places} write={write} />,
      },
      ...tableBlocks(
        `fasteners ${says} table`,
        says,
        [
          { heads: 'Fastener', share: 20 },
          { heads: 'From the left', share: 37, end: true },
          { heads: 'From the right', share: 38, end: true },
        ],
        places.map((place, i) => [i + 1, write(place), write(length - place)]),
        true,
      ),
    ]),
    ...factsBlock('fasteners facts', facts(book, factsOf('fasteners'))),
  ];
}

interface RailDrawingProps {
  readonly length: number;
  readonly places: readonly number[];
  readonly write: (own: number) => string;
}

const WIDE = 170;

/** The rail to scale with its fasteners; line widths after ISO 128 (0.35 and 0.18 mm). */
function RailDrawing({ length, places, write }: RailDrawingProps) {
  const x = (place: number): number => 2 + (place / length) * (WIDE - 4);
  return (
    <svg
      className="rail-drawing"
      viewBox={`0 0 ${WIDE} 16`}
      style={{ inlineSize: '100%', blockSize: 'auto' }}
      role="img"
      aria-label={`A rail ${write(length)} long with ${places.length} fasteners`}
    >
      <rect x={2} y={8} width={WIDE - 4} height={5} fill="none" stroke="#000" strokeWidth={0.35} />
      {places.map((place) => (
        <g key={place} data-place={place}>
          <path
            d={`M${x(place)} 5.2V14.5`}
            stroke="#000"
            strokeWidth={0.18}
            strokeDasharray="2 0.6 0.4 0.6"
          />
          <circle cx={x(place)} cy={10.5} r={0.9} fill="#000" />
          <text x={x(place)} y={4} fontSize={3} textAnchor="middle">
            {write(place)}
          </text>
        </g>
      ))}
    </svg>
  );
}
