import { knownTable, otherTables, type PartProblem, TableRow } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import type { GuideSource } from '../source.ts';
import { numberWords, type OwnNumbers, type Run, runsOf } from '../text/runs.ts';
import { FIGURES, type FigureSaid, figureIn } from './figures-known.ts';

/** A size that stands under a figure. */
export interface Measure {
  /** What it is of, as the workbook calls the cell. */
  readonly label: string;
  /** `33 3/16 in` */
  readonly words: string;
  /** As it is read aloud. */
  readonly aloud: string;
  /** The cell itself. */
  readonly at: At;
  /** It is told beside the figure, which then need not tell it again. */
  readonly isTold?: true;
}

/** A size that should stand under a figure and is not there at this size. */
export interface LostMeasure {
  /** What it is of, as the workbook calls the cell; the name that no cell has. */
  readonly label: string;
  /** Why there is no number, as of one that is lost in a text. */
  readonly run: Run & { readonly kind: 'lost' };
}

/** A step of a plan, at the size the workbook has now. */
export interface Step {
  /** Which row and round it is: what stays where other steps come and go. */
  readonly key: string;
  /** The cell of its title. */
  readonly at: At;
  /** Counted from 1, of the steps that are done at this size. */
  readonly number: number;
  /** In the words of the plan, names of cells in braces: what a translation is of. */
  readonly words: {
    readonly title: string;
    /** A paragraph each. */
    readonly text: readonly string[];
    readonly caution?: string;
    readonly tools: readonly string[];
    readonly hardware: readonly string[];
  };
  /** What is done, in a few words. */
  readonly title: readonly Run[];
  /** A paragraph each. */
  readonly text: readonly (readonly Run[])[];
  /** Which of how many, of a step that is repeated. */
  readonly round?: { readonly is: number; readonly of: number };
  /** Names of the parts that are made or put on in it; those of a repeated step, in its last round. */
  readonly builds: readonly string[];
  /** What its figure shows, and of what. */
  readonly figure: FigureSaid;
  /** Sizes that stand under the figure. */
  readonly measures: readonly Measure[];
  /** Sizes that should stand there and are lost at this size. */
  readonly lost: readonly LostMeasure[];
  /** The name of a photograph of the workbook. */
  readonly photo?: string;
  /** What is needed for it. */
  readonly tools: readonly string[];
  /** Screws, glue and the like, each with its numbers. */
  readonly hardware: readonly (readonly Run[])[];
  /** What can hurt here, and what prevents it. */
  readonly caution?: readonly Run[];
  /** Hours. */
  readonly handsOn?: number;
  /** Hours. */
  readonly waiting?: number;
}

/** What the steps table of a workbook says. */
export interface StepsReading {
  /** False: the workbook has no steps table. */
  readonly found: boolean;
  /** Those that are done at this size, in their order, repeated ones as often as they are done. */
  readonly steps: readonly Step[];
  /** Every row that is a step, done at this size or not. */
  readonly rows: number;
  /** What could not be read, each at its cell; the rest of its step stands. */
  readonly problems: readonly PartProblem[];
}

/** A step that is repeated more often is a slip of the pen. */
export const MOST_ROUNDS = 50;
/** More steps than these are read, told of, and left out. */
export const MOST_STEPS = 300;

/**
 * The steps of a workbook at the size it has now. What cannot be read becomes a problem at its cell.
 * @param say puts a text of the plan into another language; the text itself where left out
 */
export function readSteps(
  source: GuideSource,
  say: (words: string) => string = (words) => words,
): StepsReading {
  const table = knownTable(source, 'steps');
  if (table === undefined) return { found: false, steps: [], rows: 0, problems: [] };
  const problems: PartProblem[] = [...table.problems, ...otherTables(source, 'steps')];
  const steps: Step[] = [];
  let rows = 0;
  for (let row = table.first; row < table.end; row += 1) {
    const line = new TableRow(source, table, row);
    if (line.isBlank) continue;
    rows += 1;
    for (const step of stepsOfRow(source, line, say)) {
      if (steps.length === MOST_STEPS) {
        line.trouble(
          'step',
          `A plan has at most ${MOST_STEPS} steps, repeated ones counted; this one and what follows is left out. Put some together.`,
        );
        problems.push(...line.problems);
        return { found: true, steps, rows, problems };
      }
      steps.push({ ...step, number: steps.length + 1 });
    }
    problems.push(...line.problems);
  }
  return { found: true, steps, rows, problems };
}

type Unnumbered = Omit<Step, 'number'>;

function stepsOfRow(
  source: GuideSource,
  line: TableRow,
  say: (words: string) => string,
): readonly Unnumbered[] {
  const title = line.words('step');
  if (title === undefined) line.trouble('step', 'This step has no title. Say what is done in it.');
  if (!line.holds('when')) return [];
  const rounds = roundsOf(line);
  return Array.from({ length: rounds }, (_, i) =>
    oneStep(source, line, say, title ?? 'Step', { is: i + 1, of: rounds }),
  );
}

function roundsOf(line: TableRow): number {
  const said = line.number('repeats', 'how many times it is done, a whole number');
  if (said === undefined) return 1;
  if (Number.isInteger(said) && said <= MOST_ROUNDS) return said;
  line.trouble(
    'repeats',
    `A step is repeated a whole number of times, at most ${MOST_ROUNDS}. It stands here once.`,
  );
  return 1;
}

function oneStep(
  source: GuideSource,
  line: TableRow,
  say: (words: string) => string,
  title: string,
  round: { readonly is: number; readonly of: number },
): Unnumbered {
  const own: OwnNumbers = { round: round.is, rounds: round.of };
  const isFirst = round.is === 1;
  /** A number that is lost is told once, however often its step is done. */
  const runs = (head: string, words: string): readonly Run[] => {
    const found = runsOf(source, say(words), own, say);
    for (const run of found) if (isFirst && run.kind === 'lost') line.trouble(head, run.says);
    return found;
  };
  const text = paragraphsIn(line.words('text'));
  const [tools, hardware] = [line.list('tools'), line.list('hardware')];
  const caution = line.words('caution');
  const photo = line.words('photo');
  if (isFirst && photo !== undefined && source.head.photos?.[photo] === undefined) {
    line.trouble('photo', `This workbook has no photograph named "${photo}".`);
  }
  const figure = figureIn(line.words('figure'));
  if (figure === undefined && isFirst) {
    line.trouble('figure', `A figure shows one of these: ${FIGURES.join(', ')}. Blank: assembly.`);
  }
  const sizes = line.list('measure').map((name) => measureOf(source, line, name, isFirst));
  const handsOn = line.number('hands-on', 'a time');
  const waiting = line.number('waiting', 'a time');
  return {
    key: `${line.row}:${round.is}`,
    at: line.at('step'),
    words: {
      title,
      text,
      ...(caution === undefined ? {} : { caution }),
      tools,
      hardware,
    },
    title: runs('step', title),
    text: text.map((part) => runs('text', part)),
    ...(round.of > 1 ? { round } : {}),
    builds: round.is === round.of ? line.list('builds') : [],
    figure: withCut(figure ?? { kind: 'assembly' }, tools),
    measures: sizes.flatMap((one) => ('run' in one ? [] : [one])),
    lost: sizes.flatMap((one) => ('run' in one ? [one] : [])),
    ...(photo !== undefined && source.head.photos?.[photo] !== undefined ? { photo } : {}),
    tools: tools.map(say),
    hardware: hardware.map((words) => runs('hardware', words)),
    ...(caution === undefined ? {} : { caution: runs('caution', caution) }),
    ...(handsOn === undefined ? {} : { handsOn }),
    ...(waiting === undefined ? {} : { waiting }),
  };
}

/** What a text is told in: a paragraph a line. */
const paragraphsIn = (text: string | undefined): readonly string[] =>
  (text ?? '').split('\n').filter((part) => part.trim() !== '');

/** Every text of the steps that readers see at some size, those of steps that are not done at this one too. */
export function stepTexts(source: GuideSource): readonly string[] {
  const table = knownTable(source, 'steps');
  if (table === undefined) return [];
  return Array.from({ length: table.end - table.first }, (_, i) => table.first + i).flatMap(
    (row) => {
      const line = new TableRow(source, table, row);
      return [
        line.words('step') ?? [],
        paragraphsIn(line.words('text')),
        line.words('caution') ?? [],
        line.list('tools'),
        line.list('hardware'),
      ].flat();
    },
  );
}

/** A figure of a groove that does not say how it is cut, as of old: by the tools of its step, which are English then. */
function withCut(figure: FigureSaid, tools: readonly string[]): FigureSaid {
  if (figure.kind !== 'groove' || figure.cut !== undefined) return figure;
  const has = (tool: RegExp): boolean => tools.some((one) => tool.test(one));
  return { ...figure, cut: has(/\brouter\b/i) && !has(/\bsaw\b/i) ? 'routed' : 'sawn' };
}

function measureOf(
  source: GuideSource,
  line: TableRow,
  name: string,
  isFirst: boolean,
): Measure | LostMeasure {
  const cell = source.named(name);
  const [run] = runsOf(source, `{${name}}`);
  if (cell === undefined || run?.kind === 'lost') {
    // No cell of that name: what is in the braces is lost, whatever it is.
    const says = `No cell is named "${name}". Name one so, or take it out of the sizes.`;
    const lost = run?.kind === 'lost' ? run : ({ kind: 'lost', name, says } as const);
    if (isFirst) line.trouble('measure', lost.says);
    return { label: cell === undefined ? name : source.labelOf(cell.at), run: lost };
  }
  return { label: source.labelOf(cell.at), at: cell.at, ...numberWords(cell) };
}
