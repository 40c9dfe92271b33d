import {
  bookFormat,
  isCountedByName,
  type JointJob,
  type JointPlan,
  nearMisses,
  planedAway,
  savedSentence,
} from '@kerfbook/drawing';
import { dayWords } from '@kerfbook/guide';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { moneyText } from '../page/money-text.ts';
import type { Block } from '../paper/blocks.tsx';
import { alsoToBuy, boardsToBuy } from '../shop/buying-sheet.tsx';
import { carefulOf, cuttingSays, sectionBlocks } from '../shop/cutting-sheet.tsx';
import {
  cautionBlock,
  headingBlock,
  sentenceBlock,
  tableBlocks,
  titleBlock,
} from '../shop/pieces.tsx';
import { lengthUnit } from '../shop/words.ts';

/** A job with its open workbook. */
export interface OpenJob extends JointJob {
  readonly source: OpenWorkbook;
}

interface Sheets {
  readonly prices: boolean;
  /** Of the page, mm. */
  readonly field: { readonly width: number; readonly height: number };
  /** The plan is still being looked for. */
  readonly proving: boolean;
}

/** One buying list and one cutting plan over several jobs, for paper. */
export function jointSheets(
  jobs: readonly OpenJob[],
  joint: JointPlan,
  { prices, field, proving }: Sheets,
): readonly Block[] {
  const [first] = jobs;
  if (first === undefined) return [];
  const { source } = first;
  const write = bookFormat(source);
  const { groups } = joint.plan;
  return [
    ...buyingBlocks(jobs, joint, source, { prices, proving }),
    titleBlock(
      'cutting',
      'Cutting plan',
      cuttingSays(
        { write, unit: lengthUnit(source), ...joint },
        ' Each piece begins with the letter of its job.',
      ),
    ),
    ...legendBlocks('cutting jobs', jobs),
    ...leftOutBox('cutting', jobs, joint),
    cautionBlock('cutting careful', carefulOf(groups)),
    ...sectionBlocks(groups, { write, kerf: joint.kerf.mm, field }, (group) => ({
      sure: '',
      notes: [...planedAway(group, joint.kerf, write), ...nearMisses(group, joint.kerf, write)],
    })),
  ];
}

/** Which letter stands for which job; what it stands over is not parted from it. */
const legendBlocks = (key: string, jobs: readonly OpenJob[]): readonly Block[] =>
  tableBlocks(
    key,
    'The jobs and their letters',
    [
      { heads: 'Job', share: 8 },
      { heads: 'What', share: 40 },
      { heads: 'For', share: 30 },
      { heads: 'Due', share: 22 },
    ],
    jobs.map(({ mark, title, source }) => {
      const { customer, due } = source.head;
      return [
        <strong key="mark">{mark}</strong>,
        title,
        customer ?? '',
        due === undefined ? '' : dayWords(due),
      ];
    }),
  ).map((block) => ({ ...block, keep: true }));

function buyingBlocks(
  jobs: readonly OpenJob[],
  joint: JointPlan,
  source: OpenWorkbook,
  { prices, proving }: Pick<Sheets, 'prices' | 'proving'>,
): readonly Block[] {
  const write = bookFormat(source);
  const money = (amount: number): string => moneyText(source, amount);
  const { plan, kerf, notes, priceNotes } = joint;
  return [
    titleBlock('buying', 'Buying list', buyingSays(joint, prices ? money : undefined, proving)),
    ...legendBlocks('buying jobs', jobs),
    ...leftOutBox('buying', jobs, joint),
    ...(kerf.says === undefined ? [] : [cautionBlock('buying kerf', [kerf.says])]),
    headingBlock('buying boards heading', 'Boards to buy'),
    ...[...notes, ...(prices ? priceNotes : [])].map((note) =>
      sentenceBlock(`buying ${note}`, note, true),
    ),
    ...boardsToBuy({
      groups: plan.groups,
      isCounted: (material) => jobs.some((job) => isCountedByName(job.source, material)),
      write,
      unit: lengthUnit(source),
      money: prices ? money : undefined,
    }),
    ...(prices ? apartBlocks(jobs, joint, money) : []),
    ...jobs.flatMap((job) => hardwareBlocks(job)),
  ];
}

function buyingSays(
  joint: JointPlan,
  money: ((amount: number) => string) | undefined,
  proving: boolean,
): string {
  const { plan, boards, apart, leftOut } = joint;
  const counted = `${boards} ${boards === 1 ? 'board' : 'boards'} to buy`;
  const sure = plan.proven
    ? ', proven cheapest cut this way'
    : proving
      ? ', still being proven: it may yet cost less'
      : '';
  const left =
    leftOut.length === 0
      ? ''
      : ` ${leftOut.length === 1 ? 'One thing is' : `${leftOut.length} things are`} left out, so this is not all there is to buy.`;
  if (money === undefined) {
    return `${counted} for all of them${sure}; one by one they take ${apart.boards}.${left}`;
  }
  return `${money(plan.cost)}, ${counted}${sure}. ${savedSentence(joint, money)}${left}`;
}

/** What each job costs by itself, and all of them together. */
function apartBlocks(
  jobs: readonly OpenJob[],
  { plan, apart }: JointPlan,
  money: (amount: number) => string,
): readonly Block[] {
  return [
    headingBlock('buying apart', 'One by one, and together'),
    ...tableBlocks(
      'buying apart table',
      'What the jobs cost one by one, and together',
      [
        { heads: 'Boards of', share: 70 },
        { heads: 'Cost', share: 30, end: true },
      ],
      [
        ...jobs.map(({ mark, title }, i) => [`${mark} ${title}`, money(apart.costs[i] ?? 0)]),
        ['One by one', money(apart.cost)],
        ['Together', money(plan.cost)],
      ],
    ),
  ];
}

const hardwareBlocks = ({ mark, title, source }: OpenJob): readonly Block[] =>
  alsoToBuy(`buying others ${mark}`, `Also to buy for ${mark}, ${title}`, source);

/** So many are named; more would fill the page. */
const MOST_NAMED = 8;

/** What no board is bought or cut for, framed, with the workbook and the cell. */
function leftOutBox(
  key: string,
  jobs: readonly OpenJob[],
  { leftOut }: Pick<JointPlan, 'leftOut'>,
): readonly Block[] {
  if (leftOut.length === 0) return [];
  const more = leftOut.length - MOST_NAMED;
  return [
    {
      key: `${key} left out`,
      node: (
        <div className="shop-left-out">
          <p>
            <strong>▲ Left out of the plan</strong>
          </p>
          <ul>
            {leftOut.slice(0, MOST_NAMED).map(({ job, what, says, at }) => {
              const source = jobs[job]?.source;
              const cell =
                at === undefined || source === undefined
                  ? ''
                  : ` (${source.sheet(at.sheet)?.name}!${source.addressOf(at)})`;
              return (
                <li key={`${job} ${what} ${says}`}>
                  <strong>{what}</strong>
                  {`${cell}: ${says}`}
                </li>
              );
            })}
            {more > 0 ? <li>{`And ${more} more; the workbooks name each.`}</li> : null}
          </ul>
        </div>
      ),
    },
  ];
}
