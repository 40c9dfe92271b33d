import { buildScene, drawWhole, overAllOf, sizeWords } from '@kerfbook/drawing';
import { hurtsIn } from '../steps/built.ts';
import { type Html, html, type Put } from './html.ts';
import {
  capital,
  facts,
  hasSize,
  htmlId,
  list,
  type Making,
  paragraphs,
  section,
  warning,
} from './making.ts';

/** How large the cover's drawing is made: its letters are in proportion to it. */
const PANEL = { width: 600, height: 370 };
const SIZES = {
  length: 'Length',
  width: 'Width',
  depth: 'Depth',
  height: 'Height',
  thickness: 'Thickness',
  across: 'Across',
} as const;

/** What the guide is of: its drawing, its sizes, whose it is, and what its maker says first. */
export function coverSection(making: Making): Html {
  const { source, options, plan, own, theirs, length } = making;
  const { head } = source;
  const title = head.guide?.title ?? source.title;
  const svg = drawWhole(buildScene(plan.parts.parts), {
    format: length,
    panel: PANEL,
    ...(options.print === true ? { print: true } : {}),
    ...(options.eye === undefined ? {} : { eye: options.eye }),
  });
  const about = [
    head.author === undefined ? undefined : own('Plan by {author}', { author: head.author }),
    head.revision === undefined
      ? undefined
      : own('Revision {revision}', { revision: head.revision }),
    head.licence === undefined ? undefined : own('License: {license}', { license: head.licence }),
    options.day,
  ].filter((one) => one !== undefined);
  const name = htmlId('cover');
  return html`<section class="guide-section guide-cover" id="${name}" data-section="cover" aria-labelledby="${name}-head"><p class="guide-kind">${own('A plan to build from')}</p><h1 id="${name}-head">${theirs(title)}</h1>${
    svg === undefined ? undefined : html`<div class="guide-drawing">${making.drawing(svg)}</div>`
  }${facts(sizeLines(making))}${
    about.length === 0
      ? undefined
      : html`<p class="guide-about">${about.map((one, i) => [i === 0 ? '' : html` <span aria-hidden="true">·</span> `, one])}</p>`
  }<div class="guide-before">${paragraphs(head.guide?.before, theirs)}</div></section>`;
}

function sizeLines(making: Making): readonly (readonly [Put, Put])[] {
  const { plan, own, size, named, numberOf, theirs } = making;
  const { extents } = buildScene(plan.parts.parts);
  const lines: (readonly [Put, Put])[] = [];
  if (extents !== undefined) {
    const overAll = overAllOf(making.source, extents);
    const { along, across, up } = sizeWords(making.source, overAll);
    lines.push([own(SIZES[along.noun]), size(overAll.x)]);
    if (across !== along) lines.push([own(SIZES[across.noun]), size(overAll.y)]);
    lines.push([own(SIZES[up.noun]), size(overAll.z)]);
  }
  const seats = named('seats');
  if (seats !== undefined && numberOf('seats') !== 0) lines.push([own('Seats'), seats]);
  const woods = [...new Set(plan.parts.parts.map(({ material = '' }) => material))].filter(
    (wood) => wood !== '',
  );
  const wood =
    named('species') ??
    (woods.length === 0
      ? undefined
      : woods.map((one, i) => [i === 0 ? '' : ', ', theirs(one, capital)]));
  if (wood !== undefined) lines.push([own('Wood'), wood]);
  const finish = named('finish');
  if (finish !== undefined) lines.push([own('Finish'), finish]);
  return lines;
}

/** The checks of the workbook that fire at this size; nothing where none does. */
export function checksSection(making: Making): Html | undefined {
  const { source, own, checkSays, options } = making;
  const firing = source
    .checks()
    .filter(({ state }) => state === 'care' || state === 'stop' || state === 'unknown')
    .filter(({ id }) => options.without?.has(id) !== true);
  if (firing.length === 0) return undefined;
  const words = { care: 'Care', stop: 'Stop', unknown: 'Not known' } as const;
  return section(
    'checks',
    own('Look at this first'),
    html`<p>${own(hasSize(making) ? 'At this size the workbook warns:' : 'With these numbers the workbook warns:')}</p>${(
      ['stop', 'care', 'unknown'] as const
    ).flatMap((state) =>
      firing
        .filter((one) => one.state === state)
        .map((one) =>
          warning(own(words[state]), [checkSays(one)], state === 'stop' ? 'stop' : 'care'),
        ),
    )}`,
  );
}

/**
 * What is minded with every piece of furniture: common practice, no source. Nothing where none is built, and no step
 * speaks of a tool or a finish that can hurt, as in a plan for a quote.
 */
export function cautionsSection(making: Making): Html | undefined {
  const { own, plan } = making;
  const { steps, parts } = plan;
  const isHarmless = steps.length > 0 && steps.every((step) => hurtsIn(step) === undefined);
  if (isHarmless && parts.parts.length === 0) return undefined;
  return section(
    'cautions',
    own('Before you start'),
    list(
      [
        own(
          'Keep guards on and the riving knife behind the blade. Push sticks for anything narrow; hands never in line with the blade.',
        ),
        own('Collect dust at the machine, and wear a respirator, eye and ear protection.'),
        own(
          'Lay rags with drying oil flat outdoors to dry, or keep them under water in a closed metal can: they can catch fire by themselves.',
        ),
        ...weightWords(making),
        ...(plan.parts.parts.length > 1
          ? [
              own(
                'Until it stands on its own, clamp or prop it so that it cannot tip over. Fasten to the wall what a child could climb.',
              ),
            ]
          : []),
        own(
          'The manuals of your tools and of your glue and finish come before this plan, and so do local codes. Where strength or wiring is somebody else’s safety, ask a licensed professional.',
        ),
      ],
      'guide-cautions-list',
    ),
  );
}

/** Whoever lifts less than this, kg, needs no hands but their own. Common practice, no source. */
const LIGHT = 7;
/** A weight that a workbook works out leaves out what a rounded edge takes away: this much of it at the most. */
const EDGES = 0.02;

/** What all parts weigh together, and what that asks for; nothing where it weighs nothing that shows. */
function weightWords(making: Making): readonly Html[] {
  const { own, cuts, source, measure } = making;
  let kg = 0;
  for (const { mass } of cuts().materials) {
    // The weight of a material is not known.
    if (mass === undefined) {
      return [own('Heavy parts and the finished piece are turned and moved with enough hands.')];
    }
    kg += mass;
  }
  // lb: exact by definition (NIST SP 811, appendix B).
  const weighed = source.units === 'us' ? kg / 0.45359237 : kg;
  const weight = ownWeight(making, weighed) ?? weighed;
  const told = weight < 10 ? Math.round(weight * 10) / 10 : Math.round(weight);
  if (told === 0) return [];
  return [
    own(
      kg < LIGHT
        ? 'It weighs about {weight} when it is done.'
        : 'It weighs about {weight} when it is done. Lift and turn it with enough hands: bend your knees, keep your back straight.',
      { weight: measure(told, 'mass') },
    ),
  ];
}

/** What the workbook itself comes to for the same weight: its steps say that, and two numbers would contradict. */
const ownWeight = ({ source }: Making, weighed: number): number | undefined =>
  (source.head.results ?? []).flatMap((name) => {
    const cell = source.named(name);
    if (cell?.value.kind !== 'number' || (cell.unit !== 'lb' && cell.unit !== 'kg')) return [];
    const { number } = cell.value;
    return Math.abs(number - weighed) < EDGES * weighed ? [number] : [];
  })[0];
