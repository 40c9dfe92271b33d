import {
  alikeBoards,
  boardSvg,
  type CutItem,
  nearMisses,
  type PlanGroup,
  type PlannedBoard,
  type PlannedPanel,
  panelSvg,
  planedAway,
  roughAsTyped,
  type ShopPlan,
  secondRip,
} from '@kerfbook/drawing';
import { leftOutBox } from './cut-list.ts';
import { type Html, html, type Put } from './html.ts';
import { boxes, capital, type Making, pieceName, section, unbroken, warning } from './making.ts';
import type { GuideOptions } from './options.ts';

/** Cuts of a sheet that are no more than these are not parted on paper: its drawing fills enough of the page before. */
const MOST_TOGETHER = 18;

/** Every board as it is cut, to scale, with its cuts in the order in which they can be made. */
export function cuttingPlanSection(making: Making, shop: ShopPlan | undefined): Html | undefined {
  const { own } = making;
  const heading = own('Cutting plan');
  if (shop === undefined) {
    return section(
      'cutting-plan',
      heading,
      html`<p>${own('The cutting plan is being worked out.')}</p>`,
    );
  }
  const groups = shop.plan?.groups ?? [];
  if (groups.length === 0 && shop.unplanned.length === 0) return undefined;
  const longest = Math.max(1, ...groups.flatMap(({ buy }) => buy.map(({ stock }) => stock.length)));
  return section(
    'cutting-plan',
    heading,
    html`${aboutCuts(making, shop)}${leftOutBox(making, own('Left out of the cutting plan'), shop.unplanned)}${carefulOf(making, groups)}${groups.map(
      (group) => groupOf(making, shop, group, longest),
    )}`,
  );
}

function aboutCuts({ own, ownText, source, size, made }: Making, shop: ShopPlan): Html {
  const { kerf, endTrim } = shop;
  const unit = ownText(source.units === 'us' ? 'inches' : 'millimeters');
  const about =
    kerf.says === undefined
      ? own(
          'Sizes in {unit}. Saw cuts are {kerf} wide and drawn solid; what is waste is crossed out. Numbers in a board are its cuts in order; under it stands where to mark it, all measured from its left end.',
          { unit, kerf: size(kerf.mm) },
        )
      : own(
          'Sizes in {unit}. Saw cuts are drawn as if they took no wood; what is waste is crossed out. Numbers in a board are its cuts in order; under it stands where to mark it, all measured from its left end.',
          { unit },
        );
  return html`<p>${about}${
    endTrim.mm > 0
      ? html` ${own('{trim} is trimmed off each end of a board.', { trim: size(endTrim.mm) })}`
      : undefined
  }</p>${kerf.says === undefined ? undefined : html`<p>${made(kerf.says)}</p>`}`;
}

/** Usual cautions at the saw: common practice, no source. */
function carefulOf({ own }: Making, groups: readonly PlanGroup[]): Put {
  const says = [
    ...(groups.some(({ boards }) => boards.length > 0)
      ? [
          own(
            'Look at each board before you cut: knots, checks and the grain decide, not the plan. Crosscut before you rip, and let no offcut bind between blade and fence.',
          ),
        ]
      : []),
    ...(groups.some(({ panels }) => panels.length > 0)
      ? [own('A full sheet takes two to carry, and support on both sides of the cut.')]
      : []),
  ];
  return says.length === 0 ? undefined : warning(own('Caution'), says);
}

function groupOf(making: Making, shop: ShopPlan, group: PlanGroup, longest: number): Html {
  const { own, theirs, length, made, source } = making;
  const material = group.material === '' ? own('Boards') : theirs(group.material, capital);
  const notes = [
    ...roughAsTyped(source, group, length),
    ...planedAway(group, shop.kerf, length, 'builder'),
    ...nearMisses(group, shop.kerf, length),
  ];
  const alike = alikeBoards(group.boards);
  const boards = alike.map(({ first, boards: same }) =>
    boardOf(making, same, [first, group.boards.length], { kerf: shop.kerf.mm, longest }),
  );
  const panels = group.panels.map((panel, at) =>
    panelOf(making, panel, [at, group.panels.length], longest),
  );
  const [start, ...others] = [...boards, ...panels];
  return html`<div class="guide-boards"><div class="guide-together"><h3>${own('{material}, {thickness} by {width}', { material, thickness: unbroken(length(group.thickness)), width: unbroken(length(group.width)) })}</h3>${notes.map(
    (says) => html`<p>${made(unbroken(says))}</p>`,
  )}${start}</div>${others}</div>`;
}

/** The same with its pieces called as the page calls them. */
const inPageWords = (making: Making, item: CutItem): CutItem => ({
  ...item,
  name: pieceName(making, item),
});

/** What a board or a sheet is called, and its width and length. */
const stockSaid = (
  { theirsText, length }: Making,
  { name, width, length: long }: PlannedBoard['stock'] | PlannedPanel['stock'],
): string =>
  [name === '' ? undefined : theirsText(name), `${length(width)} × ${length(long)}`]
    .filter(Boolean)
    .join(', ');

/** A size is on one line: broken, it reads as two. */
const wholeSize = (says: string): string => unbroken(says).replaceAll(' × ', '\u00a0×\u00a0');

function boardOf(
  making: Making,
  boards: readonly PlannedBoard[],
  [first, of]: readonly [number, number],
  { kerf, longest }: { readonly kerf: number; readonly longest: number },
): Put {
  const { own, length, options, made } = making;
  const [board] = boards;
  if (board === undefined) return undefined;
  const { stock, offcut } = board;
  const said = {
    ...board,
    pieces: board.pieces.map((piece) => ({ ...piece, item: inPageWords(making, piece.item) })),
  };
  const numbers =
    boards.length === 1
      ? own('Board {number} of {count}', { number: first + 1, count: of })
      : own('Boards {first} to {last} of {count}, cut the same way', {
          first: first + 1,
          last: first + boards.length,
          count: of,
        });
  const then = [
    ...new Set(
      said.pieces.flatMap(({ item }) => {
        const rip = secondRip(item, stock.thickness, kerf, length);
        return rip === undefined ? [] : [`${item.name}: ${rip}`];
      }),
    ),
  ];
  const about = stockSaid(making, stock);
  return html`<div class="guide-board"><p class="guide-board-name">${boxes(making, boards.length, `board ${about} ${first}`, about)}<strong>${numbers}</strong> <span>${wholeSize(about)}${
    offcut > 0 ? html`; ${own('{length} left', { length: unbroken(length(offcut)) })}` : undefined
  }</span></p>${making.drawing(boardSvg(said, { format: length, kerf, longest, letters: lettersOf(options) }))}${then.map(
    (says) => html`<p>${made(unbroken(says))}</p>`,
  )}</div>`;
}

function panelOf(
  making: Making,
  panel: PlannedPanel,
  [at, of]: readonly [number, number],
  longest: number,
): Put {
  const { own, length, made } = making;
  const said: PlannedPanel = {
    ...panel,
    pieces: panel.pieces.map((piece) => ({ ...piece, item: inPageWords(making, piece.item) })),
  };
  const { stock, steps } = panel;
  const about = stockSaid(making, stock);
  const gives = (step: (typeof steps)[number]): string =>
    [step.gives, step.leaves]
      .filter((one) => one !== undefined)
      .map((one) => pieceName(making, one))
      .join(', ');
  return html`<div class="guide-board"><p class="guide-board-name">${boxes(making, 1, `sheet ${about} ${at}`, about)}<strong>${own('Sheet {number} of {count}', { number: at + 1, count: of })}</strong> <span>${wholeSize(about)}</span></p>${making.drawing(panelSvg(said, { format: length, longest }))}</div><div class="guide-wide"><table class="guide-table guide-sheet-cuts${steps.length <= MOST_TOGETHER ? ' guide-together' : ''}"><caption>${own('Cuts of sheet {number}', { number: at + 1 })}</caption><thead><tr>${(
    [
      ['Cut', false],
      ['How', false],
      ['To', true],
      ['Of the piece', true],
      ['Gives', false],
    ] as const
  ).map(([head, isNumber]) =>
    isNumber
      ? html`<th scope="col" class="guide-number">${own(head)}</th>`
      : html`<th scope="col">${own(head)}</th>`,
  )}</tr></thead><tbody>${steps.map(
    (step, i) =>
      html`<tr><th scope="row">${i + 1}</th><td>${step.kind === 'crosscut' || step.kind === 'rip' ? own(step.kind) : made(step.kind)}</td><td class="guide-number">${length(step.at)}</td><td class="guide-number">${length(step.from.width)} × ${length(step.from.length)}</td><td>${gives(step)}</td></tr>`,
  )}</tbody></table></div>`;
}

/** On a screen letters are read on a phone: the picture is smaller there than on paper. */
const lettersOf = ({ print }: GuideOptions): number | undefined =>
  print === true ? undefined : 26;
