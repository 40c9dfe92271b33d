import {
  type CutItem,
  type CutList,
  cutList,
  isCountedByName,
  moistureOf,
} from '@kerfbook/drawing';
import { type CheckState, showValue, unitShown } from '@kerfbook/workbook';
import { type Plan, readPlan } from '../plan.ts';
import type { GuideSource } from '../source.ts';
import { asSaid, guideFormat } from '../text/as-said.ts';
import { asMakersWrite } from '../text/as-written.ts';
import { numberWords, type Run } from '../text/runs.ts';
import type { Spoken, Translation } from '../words/second-language.ts';
import { spokenSvg } from '../words/spoken-svg.ts';
import { drawn, type Html, html, type Put } from './html.ts';
import type { GuideOptions } from './options.ts';
import type { PageWord } from './page-words.ts';

type Quantity = NonNullable<Parameters<typeof unitShown>[0]['quantity']>;

/** What the page itself is written in. */
const OWN_LANGUAGE = 'en';

/** What every part of a guide is made with. */
export interface Making {
  readonly source: GuideSource;
  readonly options: GuideOptions;
  readonly plan: Plan;
  /** What is to be cut, worked out when it is first asked for. */
  readonly cuts: () => CutList;
  /** What the guide is in, a tag after BCP 47. */
  readonly language: string;
  /** One of the page's own words, what stands in its braces filled in. */
  readonly own: (word: PageWord, fills?: Readonly<Record<string, Put>>) => Html;
  /** The same where no elements may stand: in an attribute. */
  readonly ownText: (word: PageWord, fills?: Readonly<Record<string, string>>) => string;
  /** Words of the plan's maker, such as a part's name; `as`: how they stand there, such as with a capital. */
  readonly theirs: (words: string, as?: (said: string) => string) => Html;
  /** The same where no elements may stand. */
  readonly theirsText: (words: string) => string;
  /** A text of the plan with its numbers; `words`: what it is a translation of. */
  readonly text: (runs: readonly Run[], words?: string) => Html;
  /** A sentence that the program made, with sizes and names in it. */
  readonly made: (sentence: string) => Html;
  /** What a check that fires says. */
  readonly checkSays: (check: CheckState) => Html;
  /** A drawing that was made elsewhere, its writings in the language of the guide. */
  readonly drawing: (svg: string) => Html;
  /** A number as it stands, and as it is read aloud where that is otherwise. */
  readonly number: (number: Pick<Run & { kind: 'number' }, 'words' | 'aloud'>) => Html;
  /** A number of a quantity in the workbook's own unit, with its unit. */
  readonly measure: (own: number, quantity: Quantity) => Html;
  /** Hours as one says them: `45 min`, `3 h 10 min`. */
  readonly hours: (hours: number) => Html;
  /** A length given in mm, with its unit. */
  readonly size: (mm: number) => Html;
  /** A length given in mm as tables and drawings have it, without its unit. */
  readonly length: (mm: number) => string;
  /** A named cell as it shows, with its unit; undefined where there is none, or it is empty or in error. */
  readonly named: (name: string) => Html | undefined;
  /** The number of a named cell. */
  readonly numberOf: (name: string) => number | undefined;
}

/** All that the parts of a guide are made with. */
export function makingOf(source: GuideSource, options: GuideOptions, wanted?: Translation): Making {
  const second = options.second === true;
  const plan = readPlan(source, second, wanted);
  const first = source.head.guide?.language ?? OWN_LANGUAGE;
  const translation = second ? plan.translation : undefined;
  const language = translation?.language ?? first;
  const say = (words: string): string => translation?.say(words) ?? words;
  /** Words that are still in another language than the page. */
  const marked = (words: Put, isSaid: boolean, was: string): Html => {
    const stands = isSaid ? language : was;
    return stands === language ? html`${words}` : html`<span lang="${stands}">${words}</span>`;
  };
  const ownText: Making['ownText'] = (word, fills = {}) =>
    say(word).replaceAll(/\{(\w+)\}/g, (whole, name: string) => fills[name] ?? whole);
  const own: Making['own'] = (word, fills = {}) => {
    const said = say(word);
    return marked(
      said.split(/(\{\w+\})/).map((part) => fills[/^\{(\w+)\}$/.exec(part)?.[1] ?? ''] ?? part),
      translation?.has(word) === true,
      OWN_LANGUAGE,
    );
  };
  const theirsText = (words: string): string => say(words);
  const spokenAs = ({ left }: Spoken): string | undefined => {
    const stands = left === undefined ? language : left === 'maker' ? first : OWN_LANGUAGE;
    return stands === language ? undefined : stands;
  };
  let cuts: CutList | undefined;
  const context = { system: source.units, currency: source.currency };
  const made: Making['made'] = (sentence) => {
    if (translation === undefined) return marked(sentence, false, OWN_LANGUAGE);
    const { words, left } = translation.made(sentence);
    return marked(unbroken(words), left === undefined, left === 'maker' ? first : OWN_LANGUAGE);
  };
  const aloudHtml = (aloud: string): Html => {
    const spoken = translation?.made(aloud) ?? ({ words: aloud, left: 'program' } as const);
    const lang = spokenAs(spoken);
    return lang === undefined
      ? html`<span class="kb-aloud">${spoken.words}</span>`
      : html`<span class="kb-aloud" lang="${lang}">${spoken.words}</span>`;
  };
  const number: Making['number'] = ({ words, aloud }) =>
    words === aloud
      ? html`<span class="kb-number">${words}</span>`
      : html`<span class="kb-number"><span aria-hidden="true">${words}</span>${aloudHtml(aloud)}</span>`;
  const measure: Making['measure'] = (amount, quantity) =>
    number(
      numberWords({
        value: { kind: 'number', number: amount },
        shown: showValue({ kind: 'number', number: amount }, { quantity, ...context }),
        unit: unitShown({ quantity, ...context }),
      }),
    );
  return {
    source,
    options,
    plan,
    cuts: () => {
      cuts ??= cutList(
        plan.parts.parts.filter(({ material }) => !isCountedByName(source, material)),
        moistureOf(source),
      );
      return cuts;
    },
    language,
    own,
    ownText,
    theirsText,
    theirs: (words, as = (said) => said) => {
      const said = as(say(words));
      return marked(said, translation?.has(words) === true, first);
    },
    text: (runs, words) =>
      marked(
        runs.map((run) => {
          if (run.kind === 'words') return unbroken(run.words);
          if (run.kind === 'number') return number(run);
          return html`<span class="kb-lost" title="${run.says}"><span aria-hidden="true">…</span><span class="kb-aloud">${own('not known at this size')}</span></span>`;
        }),
        translation !== undefined && (words === undefined || translation.has(words)),
        first,
      ),
    made,
    checkSays: ({ id, state, says }) => {
      if (state === 'unknown') return made(says);
      let isSaid = translation !== undefined;
      const spoken = source.checkInWords(
        id,
        (words) => {
          if (translation?.has(words) === false) isSaid = false;
          return say(words);
        },
        // A check speaks of the sizes of the steps: in the same words.
        (shown, unit, own) => asMakersWrite(asSaid(shown, unit, own).text),
      );
      return marked(spoken ?? says, isSaid, first);
    },
    drawing: (svg) =>
      drawn(translation === undefined ? svg : spokenSvg(svg, translation.made, spokenAs)),
    number,
    measure,
    hours: (hours) => number(hoursWords(hours)),
    size: (mm) => measure(ownFromMm(mm, source), 'length'),
    length: guideFormat(source),
    named: (name) => {
      const cell = source.named(name);
      if (cell === undefined || cell.value.kind === 'empty' || cell.value.kind === 'error') {
        return undefined;
      }
      if (cell.value.kind === 'number') return number(numberWords(cell));
      const { words } = numberWords(cell);
      return marked(capital(say(words)), translation?.has(words) === true, first);
    },
    numberOf: (name) => {
      const value = source.named(name)?.value;
      return value?.kind === 'number' ? value.number : undefined;
    },
  };
}

/** mm in the workbook's own unit; the rounding takes away what converting to mm and back adds. */
const ownFromMm = (mm: number, { units }: Pick<GuideSource, 'units'>): number =>
  Number((units === 'us' ? mm / 25.4 : mm).toPrecision(12));

/** A time as it stands in a plan, and as it is read aloud; under a minute is one. */
export function hoursWords(hours: number): { readonly words: string; readonly aloud: string } {
  const minutes = hours > 0 ? Math.max(1, Math.round(hours * 60)) : 0;
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60];
  const said = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
  const parts = [
    ...(whole > 0 || rest === 0 ? [[`${whole} h`, said(whole, 'hour')] as const] : []),
    ...(rest > 0 ? [[`${rest} min`, said(rest, 'minute')] as const] : []),
  ];
  return {
    words: parts.map(([short]) => asMakersWrite(short)).join(' '),
    aloud: parts.map(([, long]) => long).join(' '),
  };
}

/** Words as they begin a sentence or stand alone. */
export const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

/** Sizes within words do not break over two lines: 4 at the end of one and 1/2 on the next are two sizes. */
export const unbroken = (says: string): string => says.replaceAll(/(\d) (\d+\/\d)/g, '$1\u00a0$2');

/** An id as HTML, CSS and an address have it. */
export const htmlId = (id: string): string => `guide-${id.replaceAll(/[^A-Za-z0-9-]/g, '-')}`;

/** A part of a guide: a `section` that is named by its heading. */
export function section(id: string, heading: Html, body: Put, kind = id): Html {
  const name = htmlId(id);
  return html`<section class="guide-section guide-${kind}" id="${name}" data-section="${id}" aria-labelledby="${name}-head"><h2 id="${name}-head">${heading}</h2>${body}</section>`;
}

/** `what  how much`, a line each; nothing where there are none. */
export const facts = (lines: readonly (readonly [says: Put, shown: Put])[]): Put =>
  lines.length === 0
    ? undefined
    : html`<dl class="guide-facts">${lines.map(
        ([says, shown]) => html`<div><dt>${says}</dt><dd>${shown}</dd></div>`,
      )}</dl>`;

/** A list; nothing where there is nothing in it. */
export const list = (items: readonly Put[], kind = 'guide-list'): Put =>
  items.length === 0
    ? undefined
    : html`<ul class="${kind}">${items.map((item) => html`<li>${item}</li>`)}</ul>`;

/** A warning that is one without colours too: framed, with a sign and its word. */
export const warning = (word: Html, sentences: readonly Put[], kind = 'caution'): Html =>
  html`<div class="guide-warning guide-warning-${kind}" role="note"><p class="guide-warning-word"><span aria-hidden="true">${kind === 'stop' ? '■' : '▲'}</span> ${word}</p>${sentences.map(
    (says) => html`<p>${says}</p>`,
  )}</div>`;

/** Words of a maker that go over several lines, a paragraph each. */
export const paragraphs = (words: string | undefined, put: (line: string) => Html): Put =>
  (words ?? '')
    .split(/\n+/)
    .filter((line) => line.trim() !== '')
    .map((line) => html`<p>${put(line)}</p>`);

/** So many boxes stand in one place; of what is more the count is said. */
const MOST_BOXES = 12;

/** A box for each of some things alike: to tick on the screen where that is wanted, else on paper. */
export function boxes({ options, own }: Making, count: number, key: string, says: string): Html {
  const shown = Math.min(count, MOST_BOXES);
  const more =
    count > shown
      ? html` <span class="guide-more-boxes">${own('and {count} more', { count: count - shown })}</span> `
      : undefined;
  const one = (i: number): Html =>
    options.ticks === true
      ? html`<input type="checkbox" class="guide-tick" data-tick="${key}#${i + 1}" aria-label="${count === 1 ? says : `${says}, ${i + 1} / ${count}`}">`
      : html`<span class="guide-box" aria-hidden="true"></span>`;
  return html`<span class="guide-boxes">${Array.from({ length: shown }, (_, i) => one(i))}${more}</span>`;
}

/** The name of pieces as they lie on the bench, said in the page's language: of a panel its boards. */
export function pieceName({ theirsText, ownText }: Making, item: CutItem): string {
  const { becomes, laminates, name } = item;
  const part = becomes?.part ?? laminates?.part;
  if (part === undefined) return theirsText(name);
  const what =
    laminates === undefined ? 'board' : becomes === undefined ? 'layer' : 'board of a layer';
  return `${theirsText(part)}, ${ownText(what)}`;
}

/** Whether it is the plan of something that has a size: one for a quote has none. */
export const hasSize = ({ plan }: Making): boolean => plan.parts.parts.length > 0;
