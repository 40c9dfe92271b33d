import { functionReference, ourFunction } from '@kerfbook/functions';
import {
  type ArgumentDescription,
  type FunctionDescription,
  OWN_UNITS,
  type Quantity,
  type UnitSystem,
} from '@kerfbook/wood';
import { withWords } from '#function-words';
import { showWithUnit } from '../quantities/show.ts';
import { workOut } from './alone.ts';

/** What a maker reads of one function, in the units of their workbook. */
export interface FunctionPage {
  /** In capitals. */
  readonly name: string;
  /** The job it belongs to. */
  readonly task: string;
  /** `EMC(temperature, humidity)`, arguments that may be left out in brackets. */
  readonly call: string;
  /** The question it answers, in one sentence. */
  readonly answers: string;
  /** Its arguments in order, each with its unit in words. */
  readonly args: readonly {
    readonly name: string;
    readonly says: string;
    readonly optional: boolean;
  }[];
  /** What it comes to, with its unit in words. */
  readonly gives: string;
  /** Where its figures were read. */
  readonly source: string;
  /** What else is good to know. */
  readonly notes?: string;
  /** A formula that needs no cell; its numbers are us units. */
  readonly example: string;
}

/** Every woodworking function as a maker reads it, in the order of the job. */
export function functionPages(system: UnitSystem): readonly FunctionPage[] {
  return functionReference().map((one) => pageOf(withWords(one), system));
}

function pageOf(one: FunctionDescription, system: UnitSystem): FunctionPage {
  const { name, task, answers, source, notes, example, result } = one;
  const args = one.args.map((argument) =>
    argument.optional ? `[${argument.name}]` : argument.name,
  );
  return {
    name,
    task,
    call: `${name}(${args.join(', ')})`,
    answers,
    args: one.args.map((argument) => ({
      name: argument.name,
      says: argumentSays(argument, system),
      optional: argument.optional === true,
    })),
    gives: withUnit(result.means, result.quantity, system),
    source,
    example,
    ...(notes === undefined ? {} : { notes }),
  };
}

/** What one of our functions answers and where its figures were read; nothing where it is none of ours. */
export function functionNote(
  name: string,
): Pick<FunctionPage, 'name' | 'answers' | 'source'> | undefined {
  const one = ourFunction(name);
  if (one === undefined) return undefined;
  const { answers, source } = withWords(one);
  return { name, answers, source };
}

/** What to put in an argument: `width across the grain (in)` */
export function argumentSays(argument: ArgumentDescription, system: UnitSystem): string {
  const { means, quantity, leftOut } = argument;
  const says = withUnit(means, quantity, system);
  return leftOut === undefined ? says : `${says}; if left out: ${leftOut}`;
}

function withUnit(means: string, quantity: Quantity, system: UnitSystem): string {
  const unit = OWN_UNITS[quantity][system];
  // Some descriptions name their unit in words already.
  if (unit === '' || (unit === '%' && /percent/.test(means)) || unit === '°') return means;
  return `${means} (${unit})`;
}

/** What the example of each page comes to, with its unit, by the function's name. */
export function exampleResults(pages: readonly FunctionPage[]): ReadonlyMap<string, string> {
  const results = workOut(
    pages.map(({ example }) => example),
    'us',
  );
  return new Map(
    pages.map(({ name }, i) => {
      const answer = results[i];
      const value = answer?.rows[0]?.[0];
      const shown = answer && value ? showWithUnit(value, answer.context) : '';
      return [name, shown];
    }),
  );
}

/** What a search of functions reads of one. */
type Searched = Pick<FunctionPage, 'name' | 'task' | 'answers'> &
  Partial<Pick<FunctionPage, 'gives' | 'notes'>> & {
    readonly args: readonly { readonly name: string; readonly says: string }[];
  };

/** Pages in which every word of what was asked occurs; those whose name it begins come first. */
export function findPages<Page extends Searched>(
  pages: readonly Page[],
  asked: string,
): readonly Page[] {
  const words = asked.toLowerCase().split(/\s+/).filter(Boolean);
  const text = (page: Page): string =>
    [page.name, page.name.replaceAll('_', ' '), page.task, page.answers, page.gives, page.notes]
      .concat(page.args.flatMap(({ name, says }) => [name, says]))
      .join(' ')
      .toLowerCase();
  const found = pages.filter((page) => words.every((word) => text(page).includes(word)));
  const [first = ''] = words;
  const begins = (page: Page): boolean => page.name.toLowerCase().startsWith(first);
  return [...found.filter(begins), ...found.filter((page) => !begins(page))];
}
