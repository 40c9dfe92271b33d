import type { Figure } from '../figures/figure.ts';
import type { BuiltStep } from '../steps/built.ts';
import { plainText, type Run } from '../text/runs.ts';
import { drawn, escaped, type Html, html, type Put } from './html.ts';
import { boxes, facts, htmlId, list, type Making, warning } from './making.ts';

/** The id of a step's section. */
export const stepId = ({ key }: Pick<BuiltStep, 'key'>): string => `step-${key}`;

/** A step: what is done, with its figure, what is needed for it and what can hurt. */
export function stepSection(making: Making, step: BuiltStep, figure: Figure | undefined): Html {
  const { own, ownText, text } = making;
  const { number, title, words, key } = step;
  const name = htmlId(stepId(step));
  const [first, ...rest] = step.text.map((runs, i) => html`<p>${text(runs, words.text[i])}</p>`);
  const photo = photoOf(making, step);
  return html`<section class="guide-section guide-step${isTall(step, figure) ? ' guide-step-tall' : ''}" id="${name}" data-section="${stepId(step)}" aria-labelledby="${name}-head"><div class="guide-step-top"><h2 id="${name}-head"><span class="guide-step-number">${boxes(making, 1, `step ${key}`, ownText('Step {number}', { number: String(number) }))}${own('Step {number}', { number })}</span> ${text(title, words.title)}</h2>${
    step.caution === undefined
      ? undefined
      : warning(own('Caution'), [text(step.caution, words.caution)])
  }${figureOf(making, step, figure)}${first}</div>${rest}${photo}${needsOf(making, step)}</section>`;
}

/** What a unit of a figure takes on paper, mm: its letters, 11 units high, are a little larger than 9 pt. */
const UNIT = 0.3;
/** A figure wider than this stands over the text of its step, mm; any other beside it. */
const BESIDE = 125;
/** Of what a page has room for somewhat over half, mm, and how text is set there, as the styles have it. */
const MOST_WHOLE = 160;
const FIELD = 182;
const LINE = 5.2;
const LETTER = 1.75;
const PHOTO = 80;

/** What a figure takes on paper, mm. */
function roomOf(figure: Figure | undefined): { readonly wide: number; readonly high: number } {
  const [, , , wide = 0, high = 0] =
    /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(figure?.svg ?? '')?.map(Number) ?? [];
  const unit = Math.min(UNIT, FIELD / Math.max(wide, 1));
  return { wide: wide * unit, high: high * unit };
}

/**
 * Whether a step takes more than about half a page. Such a one is not moved to the next page as a whole, which would leave
 * the one before too empty: it may go on over a page's end once its figure and the first paragraph stand.
 */
function isTall(step: BuiltStep, figure: Figure | undefined): boolean {
  const { text, caution, measures, photo, hardware, tools } = step;
  const { wide, high } = roomOf(figure);
  const isBeside = wide > 0 && wide <= BESIDE;
  const lines = (runs: readonly Run[], over: number): number =>
    Math.ceil((plainText(runs).length * LETTER) / over) * LINE + 2;
  const beside = isBeside ? FIELD - wide - 6 : FIELD;
  const needs = [tools.join(', '), ...hardware.map(plainText)].join('; ');
  const said =
    text.reduce((sum, runs) => sum + lines(runs, beside), 0) +
    (needs === '; ' ? 0 : 4 * LINE + lines([{ kind: 'words', words: needs }], beside));
  const all = [
    16,
    caution === undefined ? 0 : 12 + lines(caution, FIELD - 10),
    isBeside ? Math.max(high, said) : high + said,
    measures.length === 0 ? 0 : 7 + Math.ceil(measures.length / 2) * 6,
    photo === undefined ? 0 : PHOTO,
  ];
  return all.reduce((sum, one) => sum + one, 0) > MOST_WHOLE;
}

const langOf = (lang: string | undefined): Put =>
  lang === undefined ? undefined : html` lang="${lang}"`;

function figureOf(
  { own, ownText, theirs, theirsText, text, language, number: put }: Making,
  { number, measures, lost }: BuiltStep,
  figure: Figure | undefined,
): Put {
  // What the figure says itself need not be said again.
  const left = measures.filter(
    ({ label, words }) => figure?.svg.includes(escaped(`${theirsText(label)}: ${words}`)) !== true,
  );
  const lines: readonly (readonly [Put, Put])[] = [
    ...left.map(({ label, words, aloud }) => [theirs(label), put({ words, aloud })] as const),
    ...lost.map(({ label, run }) => [theirs(label), text([run])] as const),
  ];
  const sizes =
    lines.length === 0
      ? undefined
      : html`<div class="guide-sizes"><p class="guide-small-head">${own('Sizes')}</p>${facts(lines)}</div>`;
  if (figure === undefined) return sizes;
  const label = `${ownText('Figure of step {number}', { number: String(number) })}: ${figure.says}`;
  const { wide } = roomOf(figure);
  const { svg, caption, captionLang, saysLang } = figure;
  const says = saysLang === undefined ? undefined : language;
  /** An element's own label is in the element's own language; what stands in it is then told its own. */
  const inside = html`${drawn(says === undefined ? svg : svg.replace('<svg ', `<svg lang="${says}" `))}${
    caption === undefined
      ? undefined
      : html`<figcaption${langOf(captionLang ?? says)}>${caption}</figcaption>`
  }${says === undefined || sizes === undefined ? sizes : html`<div${langOf(says)}>${sizes}</div>`}`;
  return html`<figure class="guide-figure${wide > BESIDE ? ' guide-figure-wide' : ''}"${langOf(saysLang)} aria-label="${label}">${inside}</figure>`;
}

/** The form in which a photograph may come into a page; what a workbook holds was checked for it when it was opened. */
const PICTURE = /^data:image\/(?:png|jpeg);base64,[A-Za-z0-9+/]+={0,2}$/;

function photoOf({ source, theirsText, ownText }: Making, { photo }: BuiltStep): Put {
  const found = photo === undefined ? undefined : source.head.photos?.[photo];
  if (found === undefined || !PICTURE.test(found.data)) return undefined;
  const says = found.says === undefined ? ownText('Photograph') : theirsText(found.says);
  return html`<figure class="guide-photo"><img src="${found.data}" alt="${says}"></figure>`;
}

function needsOf(making: Making, { words, hardware, handsOn, waiting }: BuiltStep): Put {
  const { own, text, hours, theirs } = making;
  const { tools } = words;
  const times = [
    ...(handsOn === undefined ? [] : [[own('Hands-on'), hours(handsOn)] as const]),
    ...(waiting === undefined ? [] : [[own('Waiting'), hours(waiting)] as const]),
  ];
  const lines: (readonly [Put, Put])[] = [
    ...(tools.length === 0
      ? []
      : [[own('Tools'), tools.map((tool, i) => [i === 0 ? '' : ', ', theirs(tool)])] as const]),
    ...(hardware.length === 0
      ? []
      : [
          [
            own('Hardware and supplies'),
            list(hardware.map((runs, i) => text(runs, words.hardware[i]))),
          ] as const,
        ]),
    ...times,
  ];
  return lines.length === 0
    ? undefined
    : html`<div class="guide-step-needs"><p class="guide-small-head">${own('For this step')}</p>${facts(lines)}</div>`;
}

/** Numbers that are lost at this size, each once, with the steps whose words have them. */
export function lostNumbers(
  steps: readonly BuiltStep[],
): readonly { readonly number: number; readonly says: string }[] {
  const told = new Set<string>();
  return steps.flatMap(({ number, title, text, caution = [], hardware, lost }) =>
    [title, ...text, caution, ...hardware, lost.map(({ run }) => run)].flat().flatMap((run) => {
      if (run.kind !== 'lost' || told.has(run.says)) return [];
      told.add(run.says);
      return [{ number, says: run.says }];
    }),
  );
}
