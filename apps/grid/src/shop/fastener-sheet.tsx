import { type Moves, type Points, type Rail, railErrors, railsOf } from '@kerfbook/drawing';
import { KNOWN_NAMES, type OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { type Facts, factsOf } from './facts.ts';
import { pocketScrews } from './hardware.ts';
import { leftOutBlocks } from './left-out.tsx';
import {
  cautionBlock,
  factsBlock,
  headingBlock,
  sentenceBlock,
  titleBlock,
  wholeTable,
} from './pieces.tsx';
import { pocketBlocks } from './pocket-blocks.tsx';
import {
  capital,
  facts,
  fineLengthText,
  inItsWords,
  lengthText,
  lengthUnit,
  numberOf,
  panelOf,
  shownOf,
} from './words.ts';

const WAYS: Readonly<Record<Moves, string>> = {
  square: 'moves square to this apron.',
  along: 'moves along this apron.',
};

const movesSay = (moves: Moves, panel: string): string => `The ${panel} ${WAYS[moves]}`;

/** What stands on a rail and how, in a sentence or two. */
function standing({ kind, points, moves }: Rail, panel: string): string {
  if (kind === undefined) return movesSay(moves, panel);
  const way = points === undefined ? '' : `, ${points}`;
  return `At each place: ${kind}${way}. ${movesSay(moves, panel)}`;
}

/** Sizes of a groove and of what reaches into it: of no use where nothing does. */
const OF_TONGUES: ReadonlySet<string> = new Set([
  'groove_edge',
  'groove_width',
  'groove_depth',
  'tongue_length',
  'tongue_gap',
]);

/** What those on each apron travel, by what they have to there. */
const NEEDS: ReadonlyMap<string, string> = new Map([
  ['fastener_reach_long', 'fastener_need_long'],
  ['fastener_reach_short', 'fastener_need_short'],
]);

/** The lines of the sheet, with what is needed beside what there is. */
const travelFacts = (): Facts =>
  factsOf('fasteners').flatMap((line) => {
    const need = KNOWN_NAMES.fasteners.names.find(({ name }) => name === NEEDS.get(line[0]));
    return need === undefined ? [line] : [line, [need.name, need.means] as const];
  });

/** Every fastener's distance from an end and the way it points, also drawn; undefined where nothing is fastened so. */
export function fastenerSheet(book: OpenWorkbook): Block[] | undefined {
  const rails = railsOf(book);
  const errors = railErrors(book);
  if (rails.length + errors.length === 0) return undefined;
  const write = (own: number): string => lengthText(book, own);
  const panel = panelOf(book);
  const tongued = rails.some(({ kind }) => kind === 'button' || kind === 'clip');
  return [
    titleBlock(
      'fasteners',
      `${capital(panel)} fasteners`,
      `From the left leg's inner face to the middle of each fastener, in ${lengthUnit(book)}.`,
    ),
    ...leftOutBlocks('fasteners', 'Left out: aprons with a cell in error', book, errors),
    cautionBlock('fasteners careful', [
      `Hold the ${panel} fast along its center line only; at the edges it must be free to move across the grain.`,
      `A figure-8 lets the ${panel} move only across the way it points.`,
      `Set a stop on the drill before the holes in the ${panel}: a screw that is too long comes through.`,
      ...(tongued
        ? ['Stop a groove short of tenons and mortises: run through, it would cut into them.']
        : []),
    ]),
    // What they have to travel stands under the last rows, not alone on another page.
    ...withNext(rails.flatMap((rail) => railBlocks(book, rail, { write, panel }))),
    ...factsBlock('fasteners facts', [
      ...inItsWords(
        panel,
        facts(
          book,
          travelFacts().filter(([name]) => tongued || !OF_TONGUES.has(name)),
        ),
      ),
      ...((numberOf(book, 'pocket_screw_count') ?? 0) > 0
        ? [
            [
              `${pocketScrews(book)}, in the base`,
              shownOf(book, 'pocket_screw_count') ?? '',
            ] as const,
          ]
        : []),
    ]),
    ...pocketBlocks(book),
  ];
}

const withNext = (blocks: readonly Block[]): Block[] =>
  blocks.map((block, i) => (i === blocks.length - 1 ? { ...block, keep: true } : block));

function railBlocks(
  book: OpenWorkbook,
  rail: Rail,
  { write, panel }: Omit<RailDrawingProps, 'rail'>,
): Block[] {
  const { says, length, places } = rail;
  const key = `fasteners ${says}`;
  return [
    headingBlock(key, `${says}: ${write(length)}`),
    sentenceBlock(`${key} standing`, standing(rail, panel), true),
    {
      key: `${key} drawn`,
      keep: true,
      node: <RailDrawing rail={rail} write={write} panel={panel} />,
    },
    ...wholeTable(
      `${key} table`,
      says,
      [
        { heads: 'Fastener', share: 15 },
        { heads: 'From the left', share: 26, end: true },
        { heads: 'From the right', share: 26, end: true },
        { heads: 'Travels each way', share: 26, end: true },
      ],
      places.map(({ at, need }, i) => [
        i + 1,
        write(at),
        write(length - at),
        need === undefined ? '' : travelText(fineLengthText(book, need)),
      ]),
      true,
    ),
  ];
}

const travelText = (need: string): string => (need === '0' ? 'none needed' : `${need} or more`);

/** What a letter of a drawing takes and what stays free between two texts, mm. */
const LETTER = 1.7;
const BETWEEN = 2;

/**
 * Which texts there is room for beside each other, each over the middle it is given: the first, the last, and
 * of the others what does not run into one that is there.
 */
export function textsWithRoom(
  middles: readonly number[],
  texts: readonly string[],
): readonly boolean[] {
  const half = (i: number): number => ((texts[i] ?? '').length * LETTER) / 2;
  const last = middles.length - 1;
  let end = Number.NEGATIVE_INFINITY;
  return middles.map((middle, i) => {
    const fits = middle - half(i) >= end + BETWEEN;
    const leaves = middle + half(i) + BETWEEN <= (middles[last] ?? 0) - half(last);
    if (!fits || (i > 0 && i < last && !leaves)) return false;
    end = middle + half(i);
    return true;
  });
}

interface RailDrawingProps {
  readonly rail: Rail;
  readonly write: (own: number) => string;
  /** What the fasteners hold, as the furniture has it. */
  readonly panel: string;
}

const WIDE = 170;
const MIDDLE = 10.5;

/**
 * The rail to scale, from above, the inside of the table below it: its fasteners, the way each points,
 * and the way the top moves. Line widths after ISO 128 (0.35 and 0.18 mm).
 */
function RailDrawing({ rail, write, panel }: RailDrawingProps) {
  const { length, places, points, kind, moves } = rail;
  const x = (place: number): number => 2 + (place / length) * (WIDE - 4);
  const way = points === undefined ? '' : `, ${points}`;
  const written = textsWithRoom(
    places.map(({ at }) => x(at)),
    places.map(({ at }) => write(at)),
  );
  return (
    <svg
      className="rail-drawing"
      viewBox={`0 0 ${WIDE} 26`}
      style={{ inlineSize: '100%', blockSize: 'auto' }}
      role="img"
      aria-label={`A rail ${write(length)} long with ${places.length} fasteners${way}. ${movesSay(moves, panel)}`}
    >
      <rect x={2} y={8} width={WIDE - 4} height={5} fill="none" stroke="#000" strokeWidth={0.35} />
      {places.map(({ at }, i) => (
        <g key={at} data-place={at} data-points={points}>
          <path
            d={`M${x(at)} 5.2V14.5`}
            stroke="#000"
            strokeWidth={0.18}
            strokeDasharray="2 0.6 0.4 0.6"
          />
          <Fastener x={x(at)} kind={kind} points={points} />
          {written[i] === true ? (
            <text x={x(at)} y={4} fontSize={3} textAnchor="middle">
              {write(at)}
            </text>
          ) : null}
        </g>
      ))}
      <Arrow moves={moves} />
      <text x={92} y={23.2} fontSize={3}>
        the {panel} moves
      </text>
    </svg>
  );
}

interface FastenerProps {
  readonly x: number;
  readonly kind: string | undefined;
  readonly points: Points | undefined;
}

/** A figure-8 by its two holes, a slot by its outline, a tongue by a bar; by a dot what is not known. */
function Fastener({ x, kind, points }: FastenerProps) {
  const turned = points === 'along the apron' ? `rotate(-90 ${x} ${MIDDLE})` : undefined;
  if (points === undefined || kind === undefined)
    return <circle cx={x} cy={MIDDLE} r={0.9} fill="#000" />;
  if (kind === 'slotted screw')
    return (
      <g transform={turned}>
        <rect
          x={x - 0.8}
          y={MIDDLE - 2}
          width={1.6}
          height={4}
          rx={0.8}
          fill="#fff"
          stroke="#000"
          strokeWidth={0.35}
        />
        <circle cx={x} cy={MIDDLE} r={0.6} fill="#000" />
      </g>
    );
  const round = kind === 'figure-8';
  return (
    <g transform={turned}>
      <path d={`M${x} ${MIDDLE}V${MIDDLE + 6}`} stroke="#000" strokeWidth={round ? 0.35 : 1.2} />
      {round ? <circle cx={x} cy={MIDDLE} r={0.9} fill="#000" /> : null}
      <circle cx={x} cy={MIDDLE + 6} r={0.9} fill="#fff" stroke="#000" strokeWidth={0.35} />
    </g>
  );
}

/** An arrow both ways under the rail. */
function Arrow({ moves }: { readonly moves: Moves }) {
  const heads = 'M-3 0H3M-3 0l1.2 -0.7M-3 0l1.2 0.7M3 0l-1.2 -0.7M3 0l-1.2 0.7';
  return (
    <path
      d={heads}
      transform={`translate(85 21.8) rotate(${moves === 'along' ? 0 : 90})`}
      stroke="#000"
      strokeWidth={0.35}
      fill="none"
      data-moves={moves}
    />
  );
}
