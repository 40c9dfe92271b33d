import { hardwareSays, type ShopPlan } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText, type Run } from '../text/runs.ts';
import { type Html, html, type Put } from './html.ts';
import { boxes, capital, facts, list, type Making, section } from './making.ts';

/** What is needed to build it: time, tools, wood, hardware, finish, and what that costs where it is shown. */
export function needsSection(making: Making, shop: ShopPlan | undefined): Html | undefined {
  const { own, plan, text } = making;
  const { steps } = plan;
  const part = (heading: Html, body: Put, isWide = false): Put =>
    body === undefined
      ? undefined
      : html`<div class="guide-need${isWide ? ' guide-need-wide' : ''}"><h3>${heading}</h3>${body}</div>`;
  const tools = oncePerTool(steps);
  // The finish stands under its own heading.
  const finish = making.source.named('finish')?.shown.text.trim().toLowerCase();
  const hardware = hardwareOf(steps).filter(
    ({ runs }) => finish === undefined || wordsOf(runs).replace(/\s*\(.*\)$/, '') !== finish,
  );
  const body = [
    part(own('Time'), facts(timeLines(making))),
    part(own('Finish'), facts(finishLines(making))),
    part(own('Wood to buy'), shop === undefined ? undefined : woodOf(making, shop), true),
    part(
      own('Hardware and supplies'),
      list(
        hardware
          .flatMap((one) => jointHardware(making, one) ?? [one])
          .map(({ count, runs, words, isMade }, i) => {
            const what = isMade === true ? making.made(plainText(runs)) : text(runs, words);
            const says = count === undefined ? what : html`${numberOnly(count)} ${what}`;
            const key = `get ${plainText(runs)}`;
            return html`${boxes(making, 1, key, plainText(runs) || String(i))}${says}`;
          }),
        'guide-list guide-to-get',
      ),
      true,
    ),
    part(
      own('Tools'),
      list(
        tools.map((tool) => making.theirs(tool, capital)),
        'guide-list guide-tools',
      ),
      true,
    ),
    part(own('Cost of material'), costOf(making)),
  ];
  return body.every((one) => one === undefined)
    ? undefined
    : section('needs', own('What you need'), html`<div class="guide-needs-parts">${body}</div>`);
}

/** Hours of all steps together; a step that says nothing of its time adds nothing. */
function timeLines({ plan, own, hours }: Making): readonly (readonly [Put, Put])[] {
  const sum = (of: (step: BuiltStep) => number | undefined): number =>
    plan.steps.reduce((all, step) => all + (of(step) ?? 0), 0);
  const [work, wait] = [sum(({ handsOn }) => handsOn), sum(({ waiting }) => waiting)];
  /** Nobody plans a weekend by the minute. */
  const about = (sum: number): number => (sum < 10 ? sum : Math.round(sum));
  return [
    ...(work > 0 ? [[own('Hands-on'), hours(about(work))] as const] : []),
    ...(wait > 0 ? [[own('Waiting'), hours(about(wait))] as const] : []),
  ];
}

/** Tools of all steps, each once, in the order in which they are first needed; of `A or B` nothing where A is there. */
export function oncePerTool(
  steps: readonly { readonly words: Pick<BuiltStep['words'], 'tools'> }[],
): readonly string[] {
  const found = new Map<string, string>();
  for (const tool of steps.flatMap(({ words }) => words.tools)) {
    const key = tool.trim().toLowerCase().replaceAll(/\s+/g, ' ');
    if (!found.has(key)) found.set(key, tool.trim());
  }
  const all = [...found.values()];
  // Who has a drill need not read that a drill press or a drill is needed somewhere.
  const keys = new Set(found.keys());
  return all.filter((tool) => {
    const either = tool.toLowerCase().split(/\s+or\s+/);
    return either.length === 1 || !either.some((one) => keys.has(one.trim()));
  });
}

/** Hardware of the same words. */
export interface HardwareSum {
  /** How many in all steps together; left out where its words do not begin with a whole number. */
  readonly count?: number;
  /** What it is a translation of, as it was first said. */
  readonly words?: string;
  /** What it is, without the count. */
  readonly runs: readonly Run[];
  /** The program's own words, and not the maker's. */
  readonly isMade?: true;
}

/**
 * Hardware of all steps together. What begins with a whole number is counted: `8 screws` in one step and `4 screws` in
 * another are 12 screws. Anything else stands once, as it was first said.
 */
export function hardwareOf(
  steps: readonly (Pick<BuiltStep, 'hardware'> & {
    readonly words?: Pick<BuiltStep['words'], 'hardware'>;
  })[],
): readonly HardwareSum[] {
  const found = new Map<string, HardwareSum>();
  const all = steps.flatMap(({ hardware, words }) =>
    hardware.map((runs, i) => ({ runs, words: words?.hardware[i] })),
  );
  for (const { runs, words } of all) {
    const one = { ...countedOff(runs), ...(words === undefined ? {} : { words }) };
    const key = `${one.count === undefined ? 'once' : 'counted'} ${wordsOf(one.runs)}`;
    const before = found.get(key);
    if (before === undefined) found.set(key, one);
    else if (one.count !== undefined) {
      found.set(key, { ...before, count: (before.count ?? 0) + one.count });
    }
  }
  // Glue that is told with its amount need not be told again without one.
  const amounts = [...found.values()].flatMap(({ count, runs }) =>
    count === undefined ? [/^(.*\S)\s*\(.*\)$/.exec(wordsOf(runs))?.[1]] : [],
  );
  return [...found.values()].filter(
    ({ count, runs }) => count !== undefined || !amounts.includes(wordsOf(runs)),
  );
}

/** Words that name hardware of joints and say neither how much of it nor how large. */
const OF_JOINTS: ReadonlyMap<string, string> = new Map([
  ['dowels', 'dowel'],
  ['pocket screws', 'pocket screw'],
  ['loose tenons', 'loose tenon'],
]);

/** How many of them the joints table comes to, and their sizes; undefined where it has none of that kind. */
function jointHardware(
  { plan, length, source }: Making,
  { runs, count, words }: HardwareSum,
): readonly HardwareSum[] | undefined {
  const kind = count === undefined ? OF_JOINTS.get(words ?? wordsOf(runs)) : undefined;
  const all = plan.parts.joints?.work.hardware.filter((one) => one.kind === kind) ?? [];
  if (all.length === 0) return undefined;
  const sums = new Map<string, number>();
  for (const one of all) {
    const says = hardwareSays({ ...one, count: 2 }, length);
    sums.set(says, (sums.get(says) ?? 0) + one.count);
  }
  const unit = source.units === 'us' ? 'in' : 'mm';
  return [...sums].map(([says, sum]) => ({
    count: sum,
    runs: [{ kind: 'words', words: `${says.charAt(0).toLowerCase()}${says.slice(1)} ${unit}` }],
    isMade: true,
  }));
}

const wordsOf = (runs: readonly Run[]): string =>
  runs
    .map((run) => (run.kind === 'lost' ? `{${run.name}}` : run.words))
    .join('')
    .trim()
    .toLowerCase()
    .replaceAll(/\s+/g, ' ');

const numberOnly = (count: number): Html => html`<span class="kb-number">${count}</span>`;

const COUNT = /^(\d{1,6}|\d{1,3},\d{3})(?:\s*×\s*|\s+)(?=\S)/;
const ONLY_COUNT = /^(?:\d{1,6}|\d{1,3},\d{3})$/;

/** Words with the count they begin with taken off; a size such as `2 1/2 in` is no count. */
function countedOff(runs: readonly Run[]): HardwareSum {
  const [first, second, ...rest] = runs;
  if (first?.kind === 'number' && ONLY_COUNT.test(first.words) && second?.kind === 'words') {
    const words = second.words.replace(/^\s*×?\s*/, '');
    return { count: countIn(first.words), runs: [{ kind: 'words', words }, ...rest] };
  }
  if (first?.kind !== 'words') return { runs };
  const counted = COUNT.exec(first.words);
  const after = counted === null ? '' : first.words.slice(counted[0].length);
  if (counted === null || /^(?:\d|in\b|mm\b|cm\b|m\b|ft\b|["'″′])/.test(after)) return { runs };
  return {
    count: countIn(counted[1] ?? ''),
    runs: [{ kind: 'words', words: after }, ...runs.slice(1)],
  };
}

const countIn = (words: string): number => Number(words.replaceAll(',', ''));

/** Boards and sheets that the plan buys. */
function woodOf(making: Making, shop: ShopPlan): Put {
  const { theirs, theirsText, own, length, source } = making;
  const unit = source.units === 'us' ? 'in' : 'mm';
  const lines = (shop.plan?.groups ?? []).flatMap(({ buy, thickness, width }) =>
    buy.map(({ stock, count }) => {
      const size = `${length(thickness)} × ${length(width)} × ${length(stock.length)} ${unit}`;
      const name = stock.name === '' ? 'board' : stock.name;
      return html`<span class="guide-to-get-count">${boxes(making, 1, `buy ${name} ${size}`, theirsText(name))}<span class="kb-number">${count}</span> ×</span> ${theirs(name)}, <span class="kb-size">${size}</span>${
        stock.material === '' ? undefined : html`, ${theirs(stock.material)}`
      }${stock.price === 0 ? html` (${own('at hand')})` : undefined}`;
    }),
  );
  return list(lines, 'guide-list guide-to-get');
}

function finishLines({ named, own }: Making): readonly (readonly [Put, Put])[] {
  const [cans, size] = [named('finish_cans'), named('can_size')];
  const lines = [
    [own('Finish'), named('finish')],
    [own('Finish needed'), named('finish_volume')],
    [
      own('Cans'),
      cans === undefined || size === undefined
        ? cans
        : own('{count} of {size}', { count: cans, size }),
    ],
  ] as const;
  return lines.filter(([, shown]) => shown !== undefined);
}

/** What the material costs; nothing where the maker hides costs or no cell says it. */
function costOf({ source, named, numberOf }: Making): Put {
  if (source.head.guide?.hides?.includes('costs') === true) return undefined;
  if (numberOf('cost_material') === 0) return undefined;
  // A quote has the material that its workbook brings, and all of it with what is bought besides.
  const cost = named('job_material') ?? named('cost_material');
  return cost === undefined ? undefined : html`<p>${cost}</p>`;
}
