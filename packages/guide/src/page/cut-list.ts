import { type CutItem, type LeftOut, listed, shapingSteps, shouldersSaid } from '@kerfbook/drawing';
import { type Html, html, type Put } from './html.ts';
import { boxes, list, type Making, pieceName, section, unbroken, warning } from './making.ts';

/** A list of so many lines is not parted on paper: more would leave the page before too empty. */
const MOST_TOGETHER = 12;

/** Every piece to cut at its finished size, with a box for each. */
export function cutListSection(making: Making): Html | undefined {
  const { plan, cuts, own, ownText, source, theirs, length } = making;
  const { items, pieces } = cuts();
  const { leftOut, none } = plan.parts;
  if (items.length === 0 && leftOut.length === 0) return undefined;
  const unit = ownText(source.units === 'us' ? 'inches' : 'millimeters');
  const row = (item: CutItem): Html => {
    const name = pieceName(making, item);
    const sizes = [item.thickness, item.width, item.length].map(length);
    const key = `cut ${item.name} ${sizes.join(' × ')}`;
    return html`<tr><td class="guide-done">${boxes(making, item.count, key, `${name}, ${sizes.join(' × ')}`)}</td><th scope="row">${name}</th><td class="guide-number">${item.count}</td>${sizes.map(
      (size) => html`<td class="guide-number">${size}</td>`,
    )}<td>${theirs(item.material)}</td><td class="guide-note">${notesOf(making, item).map((one, i) => [i === 0 ? '' : '; ', one])}</td></tr>`;
  };
  const count =
    pieces === 1
      ? own('One piece, finished sizes in {unit}.', { unit })
      : own('{pieces} pieces, finished sizes in {unit}.', { pieces, unit });
  return section(
    'cut-list',
    own('Cut list'),
    html`<p>${count}</p>${leftOutBox(making, own('Left out: not on this list'), leftOut)}<div class="guide-wide"><table class="guide-table guide-cuts${items.length <= MOST_TOGETHER ? ' guide-together' : ''}"><thead><tr><th scope="col" class="guide-done">${own('Done')}</th><th scope="col">${own('Part')}</th>${(
      ['Count', 'Thick', 'Wide', 'Long'] as const
    ).map(
      (head) => html`<th scope="col" class="guide-number">${own(head)}</th>`,
    )}<th scope="col">${own('Wood')}</th><th scope="col">${own('Note')}</th></tr></thead><tbody>${items.map(row)}</tbody></table></div>${
      none.length === 0
        ? undefined
        : html`<p>${own('None to make: {names}.', { names: none.map((name, i) => [i === 0 ? '' : ', ', theirs(name)]) })}</p>`
    }`,
  );
}

function notesOf(
  { own, length, made }: Making,
  { becomes, grain, laminates, shaped, shoulders, length: long, which }: CutItem,
): readonly Put[] {
  const sentences = [
    // Few enough to be read at a glance; each of many is told in its step.
    ...(which === undefined || which.length > 4 ? [] : [`one each ${listed(which)}, not alike`]),
    ...(shoulders === undefined ? [] : [shouldersSaid(shoulders, long, length)]),
    ...(shaped === undefined ? [] : shapingSteps(shaped, length)),
  ].map((says) => made(unbroken(says)));
  const layered =
    laminates === undefined
      ? []
      : [
          own('{layers} layers to one part {thickness} thick', {
            layers: laminates.layers,
            thickness: unbroken(length(laminates.thickness)),
          }),
        ];
  if (becomes !== undefined) {
    const [width, glued] = [length(becomes.width), length(becomes.length)].map(unbroken);
    const { thickness } = becomes;
    return [
      thickness === undefined
        ? own('glued up, then {width} by {length}', { width, length: glued })
        : own('glued up, then {thickness} by {width} by {length}', {
            thickness: unbroken(length(thickness)),
            width,
            length: glued,
          }),
      ...layered,
      ...sentences,
    ];
  }
  if (grain === undefined) return [...layered, ...sentences];
  return [
    own(grain === 'length' ? 'grain along the length' : 'grain along the width'),
    ...layered,
    ...sentences,
  ];
}

/** What a part of the guide has to do without, each thing with the reason. */
export function leftOutBox({ made, theirs }: Making, heading: Html, left: readonly LeftOut[]): Put {
  return left.length === 0
    ? undefined
    : warning(
        heading,
        [list(left.map(({ what, says }) => html`<strong>${theirs(what)}</strong>: ${made(says)}`))],
        'care',
      );
}
