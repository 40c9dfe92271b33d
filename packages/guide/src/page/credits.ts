import { isCaredFor } from './finish.ts';
import { type Html, html, type Put } from './html.ts';
import { facts, list, type Making, paragraphs, section } from './making.ts';
import { lostNumbers } from './steps.ts';

/** Numbers that the steps speak of and that are not there at this size; nothing where none is missing. */
export function lostSection({ plan, own, made }: Making): Html | undefined {
  const lost = lostNumbers(plan.steps);
  return lost.length === 0
    ? undefined
    : section(
        'lost',
        own('What could not be worked out at this size'),
        html`<p>${own('Where the plan shows “…”, a number is missing:')}</p>${list(
          lost.map(({ number, says }) =>
            own('Step {number}: {says}', { number, says: made(says) }),
          ),
        )}`,
      );
}

/** What its maker says last where no care of it is told, whose plan it is, and under which license. */
export function creditsSection(making: Making): Html {
  const { source, own, theirs } = making;
  const { head } = source;
  const { guide, author, licence, revision } = head;
  const lines: (readonly [Put, Put])[] = [
    [
      own('Plan'),
      author === undefined
        ? theirs(guide?.title ?? source.title)
        : html`${theirs(guide?.title ?? source.title)}, ${author}`,
    ],
    ...(licence === undefined ? [] : [[own('License'), licence] as const]),
    ...(revision === undefined ? [] : [[own('Revision'), revision] as const]),
    ...(guide?.published === undefined
      ? []
      : [[own('Handed out'), `${guide.published.number}, ${guide.published.day}`] as const]),
  ];
  return section(
    'credits',
    own('About this plan'),
    html`${isCaredFor(making) ? undefined : html`<div class="guide-after">${paragraphs(guide?.after, theirs)}</div>`}${paragraphs(guide?.credits, theirs)}${facts(lines)}<p class="guide-made-with">${own('Every number of this plan was worked out by its workbook for the sizes above.')} ${own('Made with Kerfbook, a free program under GPL-3.0. The license of this plan is its own.')}</p>`,
  );
}
