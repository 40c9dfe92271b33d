import {
  boardSvg,
  type PlanGroup,
  type PlannedBoard,
  type PlannedPanel,
  panelSvg,
} from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import { unescaped } from '../words/spoken-svg.ts';
import type { Figure } from './figure.ts';
import { placed } from './joint.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, Picture } from './picture.ts';
import type { Stage } from './stage.ts';

/** Letters of a board's picture, which is about 1000 units wide. */
const LETTERS = 32;
/** What would reach further down is in the cutting plan alone: a figure goes on a page with its step. */
const HIGHEST = 400;

interface Drawn {
  readonly title: string;
  readonly svg: string;
  readonly count: number;
}

/**
 * The boards and sheets that hold the parts of a step, as they are cut; of a step that builds nothing, all of them.
 * `cutting: Long apron, Short apron` shows those that hold these parts.
 */
export function cuttingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { shop } = stage;
  const groups = shop.plan?.groups ?? [];
  if (groups.length === 0) {
    return 'its figure shows the cutting plan, and nothing is planned: the workbook has no stock that its parts come out of. Add boards to the stock table, or write none under figure.';
  }
  const { of } = step.figure;
  const names = new Set(
    of === undefined
      ? step.parts.map(({ name }) => name)
      : of.split(',').map((name) => name.trim()),
  );
  const all = drawnOf(stage, groups, (name) => names.size === 0 || names.has(name));
  if (all.length === 0) {
    return 'its figure shows the boards that its parts come out of, and they are on none of them. Look at the stock table.';
  }
  const picture = new Picture(stage.speak);
  let more = 0;
  for (const { title, svg, count } of all) {
    const [, , wide = 1, high = 1] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '')
      .split(' ')
      .map(Number);
    const room = FIGURE.wide - 2 * FIGURE.edge;
    const tall = (room * high) / wide;
    if (more > 0 || (picture.bottom > 0 && picture.bottom + tall > HIGHEST)) {
      more += count;
      continue;
    }
    picture.beneath([count === 1 ? title : `${title}: ${count} alike`], 'kb-label');
    const y = picture.bottom + 3;
    picture.add(placed(stage.spoken(svg), FIGURE.edge, y, room, tall), y + tall);
  }
  picture.beneath([
    ...(more > 0 ? [`And ${more} more in the cutting plan.`] : []),
    ...measureLines(step),
  ]);
  const says = all.map(
    ({ title, svg, count }) => `${count === 1 ? '' : `${count} times: `}${titleIn(svg) ?? title}`,
  );
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `${says.join('. ')}.`,
  };
}

const titleIn = (svg: string): string | undefined => {
  const found = /<title>([^<]*)<\/title>/.exec(svg)?.[1];
  return found === undefined ? undefined : unescaped(found);
};

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

function drawnOf(
  { shop, format, source, speak }: Stage,
  groups: readonly PlanGroup[],
  wants: (name: string) => boolean,
): readonly Drawn[] {
  const write = writer(format);
  /** Pieces called as the plan calls them: that is what needs room on a board. */
  const named = <B extends PlannedBoard | PlannedPanel>(board: B): B => ({
    ...board,
    pieces: board.pieces.map((piece) => ({
      ...piece,
      item: { ...piece.item, name: speak(piece.item.name).words },
    })),
  });
  const isWanted = ({ pieces }: PlannedBoard | PlannedPanel): boolean =>
    pieces.some(({ item }) => wants(item.name));
  const shown = groups.flatMap(({ boards, panels }) => [...boards, ...panels].filter(isWanted));
  const longest = Math.max(...shown.map(({ stock }) => stock.length));
  const unit = unitOf(source);
  const found = new Map<string, { title: string; svg: string; count: number }>();
  const add = (board: PlannedBoard | PlannedPanel, svg: string): void => {
    const { stock, pieces } = board;
    const wood = stock.material === '' ? pieces[0]?.item.material : stock.material;
    const sizes = [stock.thickness, stock.width, stock.length].map(write).join(' × ');
    const title = capital(
      `${wood === undefined || wood === '' ? '' : `${wood}, `}${sizes} ${unit}`,
    );
    const known = found.get(title + svg);
    if (known === undefined) found.set(title + svg, { title, svg, count: 1 });
    else known.count += 1;
  };
  for (const { boards, panels } of groups) {
    for (const board of boards.filter(isWanted)) {
      // A figure has room for the marks that are far enough apart; the cutting plan says them all.
      add(
        board,
        boardSvg(named(board), {
          format,
          kerf: shop.kerf.mm,
          longest,
          letters: LETTERS,
          markLines: 1,
        }),
      );
    }
    for (const panel of panels.filter(isWanted))
      add(panel, panelSvg(named(panel), { format, longest, letters: LETTERS }));
  }
  return [...found.values()];
}
