import type { Figure } from '../figures/figure.ts';
import type { BuiltStep } from '../steps/built.ts';
import { plainText, type Run } from '../text/runs.ts';
import { drawn, escaped, type Html, html, type Put } from './html.ts';
import { boxes, facts, hasSize, htmlId, list, type Making, warning } from './making.ts';

/** What a later round of a step says in the place of its first one's words. */
const AS_BEFORE = 'As in step {number}, with what the figure shows.';

/** The id of a step's section. */
export const stepId = ({ key }: Pick<BuiltStep, 'key'>): string => `step-${key}`;

/** A step: what is done, with its figure, what is needed for it and what can hurt. */
export function stepSection(making: Making, told: BuiltStep, figure: Figure | undefined): Html {
  const { own, ownText, text, plan } = making;
  const before = sameAs(plan.steps, told);
  const step = before === undefined ? told : asBefore(told, before);
  const { number, title, words, key } = step;
  const name = htmlId(stepId(step));
  const { isTall, beside, besideIt } = layoutOf(making, step, figure);
  const caution =
    step.caution === undefined
      ? undefined
      : warning(own('Caution'), [text(step.caution, words.caution)]);
  /** No paragraph runs on from beside the figure to under it: a line or two of it would stand there alone. */
  const place = (i: number): string => (i < besideIt ? 'guide-beside' : 'guide-below');
  // What stands in the first part stays together on paper.
  const flow = [
    ...(before === undefined
      ? step.text.map((runs, i) => html`<p class="${place(i)}">${text(runs, words.text[i])}</p>`)
      : [html`<p class="${place(0)}">${own(AS_BEFORE, { number: before.number })}</p>`]),
    photoOf(making, step),
    needsOf(making, step, place(step.text.length + 1)),
  ];
  return html`<section class="guide-section guide-step${isTall ? ' guide-step-tall' : ''}" id="${name}" data-section="${stepId(step)}" aria-labelledby="${name}-head"><div class="guide-step-top"><h2 id="${name}-head"><span class="guide-step-number">${boxes(making, 1, `step ${key}`, ownText('Step {number}', { number: String(number) }))}${own('Step {number}', { number })}</span> ${text(title, words.title)}</h2>${figureOf(making, step, figure)}${caution}${sizesOf(making, step, figure)}${flow.slice(0, beside)}</div>${flow.slice(beside)}</section>`;
}

/** The first round of a repeated step, where a later one says the same. */
function sameAs(
  steps: readonly BuiltStep[],
  { round, number, text }: BuiltStep,
): BuiltStep | undefined {
  if (round === undefined || round.is === 1) return undefined;
  const first = steps[number - round.is];
  const said = (all: BuiltStep['text'] | undefined): string =>
    (all ?? []).map(plainText).join('\n');
  return first !== undefined && said(first.text) === said(text) ? first : undefined;
}

/** A later round without what its first one said; what can hurt is told again, where hands are at work again. */
function asBefore(step: BuiltStep, first: BuiltStep): BuiltStep {
  const { measures, words, tools, hardware } = step;
  const isSame = (some: readonly string[], others: readonly string[]): boolean =>
    some.join('\n') === others.join('\n');
  const sameTools = isSame(words.tools, first.words.tools);
  const sameHardware = isSame(hardware.map(plainText), first.hardware.map(plainText));
  return {
    ...step,
    text: [[{ kind: 'words', words: AS_BEFORE }]],
    measures: measures.filter(
      (one) =>
        !first.measures.some(({ label, words: is }) => label === one.label && is === one.words),
    ),
    tools: sameTools ? [] : tools,
    hardware: sameHardware ? [] : hardware,
    words: {
      ...words,
      tools: sameTools ? [] : words.tools,
      hardware: sameHardware ? [] : words.hardware,
    },
  };
}

/** What a unit of a figure takes on paper, mm: its letters, 11 units high, are a little larger than 9 pt. */
const UNIT = 0.3;
/** A figure wider than this stands over the text of its step, mm; any other beside it. */
const BESIDE = 125;
/** Of what a page has room for somewhat over half, mm, and how text is set there, as the styles have it. */
const MOST_WHOLE = 120;
const FIELD = 182;
const LINE = 4.8;
const LETTER = 1.5;
/** A caution's letters beside those of the text. */
const SMALLER = 0.85;
const PHOTO = 80;

/** What a figure takes on paper, mm. */
function roomOf(figure: Figure | undefined): { readonly wide: number; readonly high: number } {
  const [, , , wide = 0, high = 0] =
    /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(figure?.svg ?? '')?.map(Number) ?? [];
  const unit = Math.min(UNIT, FIELD / Math.max(wide, 1));
  return { wide: wide * unit, high: high * unit };
}

/**
 * How a step is laid out on paper: whether it takes more than about half a page, and how many of its paragraphs stand
 * beside its figure. A tall one is not moved to the next page as a whole, which would leave the one before too empty: it
 * may go on over a page's end once its figure and what stands beside it do.
 */
function layoutOf(
  making: Making,
  step: BuiltStep,
  figure: Figure | undefined,
): { readonly isTall: boolean; readonly beside: number; readonly besideIt: number } {
  const { text, caution, photo, hardware, tools } = step;
  const sizes = sizesLeft(making, step, figure).length;
  const { wide, high: drawnHigh } = roomOf(figure);
  const isBeside = wide > 0 && wide <= BESIDE;
  const room = isBeside ? FIELD - wide - 6 : FIELD;
  const lines = (runs: readonly Run[], over = room): number =>
    Math.ceil((plainText(runs).length * LETTER) / over) * LINE + 2;
  const high =
    figure?.caption === undefined
      ? drawnHigh
      : drawnHigh + lines([{ kind: 'words', words: figure.caption }], isBeside ? wide : FIELD);
  const needs = [...tools, ...hardware.map(plainText)].join(', ');
  const warned =
    (caution === undefined ? 0 : 10 + lines(caution, room - 6) * SMALLER) +
    (sizes === 0 ? 0 : 6 + sizes * 5.5);
  // With the words in front of them, and the times behind.
  const needed = needs === '' ? LINE : LINE + lines([{ kind: 'words', words: needs }]);
  const paragraphs = text.map((runs) => lines(runs));
  const told = [...paragraphs, photo === undefined ? 0 : PHOTO, needed];
  let fits = 0;
  for (let sum = warned; fits < told.length; fits += 1) {
    const next = told[fits] ?? 0;
    // The last one may stand out under the figure: a paragraph by as much as stands beside it, what is needed by all of it.
    const least = fits === told.length - 1 ? Math.min(next, 2 * LINE) : next / 2;
    if (sum + next > high + LINE && high - sum < least) break;
    sum += next;
  }
  const sum = (all: readonly number[]): number => all.reduce((one, next) => one + next, 0);
  const beside = sum([warned, ...told]);
  const all = 16 + (isBeside ? Math.max(high, beside) : high + beside);
  return { isTall: all > MOST_WHOLE, beside: Math.max(1, fits), besideIt: fits };
}

const langOf = (lang: string | undefined): Put =>
  lang === undefined ? undefined : html` lang="${lang}"`;

function figureOf(
  { ownText, language }: Making,
  { number }: BuiltStep,
  figure: Figure | undefined,
): Put {
  if (figure === undefined) return undefined;
  const label = `${ownText('Figure of step {number}', { number: String(number) })}: ${figure.says}`;
  const { wide } = roomOf(figure);
  const { svg, caption, captionLang, saysLang } = figure;
  const says = saysLang === undefined ? undefined : language;
  /** An element's own label is in the element's own language; what stands in it is then told its own. */
  const inside = html`${drawn(says === undefined ? svg : svg.replace('<svg ', `<svg lang="${says}" `))}${
    caption === undefined
      ? undefined
      : html`<figcaption${langOf(captionLang ?? says)}>${caption}</figcaption>`
  }`;
  return html`<figure class="guide-figure${wide > BESIDE ? ' guide-figure-wide' : ''}"${langOf(saysLang)} aria-label="${label}">${inside}</figure>`;
}

/** Sizes of a step that its figure does not say itself, and those that are lost. */
const sizesLeft = (
  { theirs, theirsText, text, number: put }: Making,
  { measures, lost }: BuiltStep,
  figure: Figure | undefined,
): readonly (readonly [Put, Put])[] => [
  ...measures
    .filter(
      ({ label, words }) =>
        figure?.tells?.includes(label) !== true &&
        figure?.svg.includes(escaped(`${theirsText(label)}: ${words}`)) !== true,
    )
    .map(({ label, words, aloud }) => [theirs(label), put({ words, aloud })] as const),
  ...lost.map(({ label, run }) => [theirs(label), text([run])] as const),
];

function sizesOf(making: Making, step: BuiltStep, figure: Figure | undefined): Put {
  const left = sizesLeft(making, step, figure);
  return left.length === 0
    ? undefined
    : html`<div class="guide-sizes"><p class="guide-small-head">${making.own(hasSize(making) ? 'Sizes' : 'Numbers')}</p>${facts(left)}</div>`;
}

/** The form in which a photograph may come into a page; what a workbook holds was checked for it when it was opened. */
const PICTURE = /^data:image\/(?:png|jpeg);base64,[A-Za-z0-9+/]+={0,2}$/;

function photoOf({ source, theirsText, ownText }: Making, { photo }: BuiltStep): Put {
  const found = photo === undefined ? undefined : source.head.photos?.[photo];
  if (found === undefined || !PICTURE.test(found.data)) return undefined;
  const says = found.says === undefined ? ownText('Photograph') : theirsText(found.says);
  return html`<figure class="guide-photo"><img src="${found.data}" alt="${says}"></figure>`;
}

function needsOf(
  making: Making,
  { words, hardware, handsOn, waiting }: BuiltStep,
  place: string,
): Put {
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
    : html`<div class="guide-step-needs ${place}"><p class="guide-small-head">${own('For this step')}</p>${facts(lines)}</div>`;
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
