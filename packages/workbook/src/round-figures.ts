import {
  type Allow,
  type At,
  type BookDocument,
  type CellDocument,
  type Edit,
  type Formula,
  formulaOf,
  keptOf,
  namesInSentence,
  nodesOf,
  turned as turnedFormula,
} from '@kerfbook/document';
import { Workbook } from './workbook.ts';

/**
 * Metric figures that a maker would have chosen, for a workbook that was written in inches and turned: sizes on whole
 * marks of a metric rule, and lengths in its words in millimeters. Where a check would turn by that, another figure
 * nearby is looked for, and the exact one kept where none does. What was converted exactly comes back when this edit is
 * undone. Undefined where nothing changes.
 */
export function roundFigures(document: BookDocument): Edit | undefined {
  if (document.units !== 'metric') return undefined;
  const rounded: Rounded[] = [];
  for (const { id, columns, rows } of document.sheets) {
    const places = new Map(columns.map((column, at) => [column.id, at]));
    for (const [row, line] of rows.entries()) {
      for (const [column, was] of Object.entries(line.cells ?? {})) {
        const cell = roundCell(was);
        const at = places.get(column);
        if (cell === undefined || at === undefined) continue;
        rounded.push({ at: { sheet: id, row, column: at }, was, cell });
      }
    }
  }
  const checks = document.checks.map((check) => ({
    ...check,
    // A limit is said as it is held: rounded, it would be another one.
    says: inMillimeters(check.says, toTenths),
  }));
  const edits = editsOf(mended(document, rounded));
  if (checks.some(({ says }, i) => says !== document.checks[i]?.says)) {
    edits.push({ do: 'setChecks', checks });
  }
  return edits.length === 0 ? undefined : { do: 'batch', edits };
}

/** A cell as it was converted, and on round figures. */
interface Rounded {
  readonly at: At;
  readonly was: CellDocument;
  readonly cell: CellDocument;
}

function editsOf(rounded: readonly Rounded[]): Edit[] {
  const sheets = new Map<string, { row: number; column: number; cell: CellDocument }[]>();
  for (const { at, cell } of rounded) {
    const { sheet, row, column } = at;
    sheets.set(sheet, [...(sheets.get(sheet) ?? []), { row, column, cell }]);
  }
  return [...sheets].map(([sheet, cells]) => ({ do: 'setCells', sheet, cells }));
}

/** The same with other figures where a check turned that was as wanted. */
function mended(document: BookDocument, rounded: readonly Rounded[]): readonly Rounded[] {
  const book = Workbook.open(document);
  const wanted = book.checks().map(({ state }) => state);
  const off = (): readonly number[] =>
    book.checks().flatMap(({ state }, i) => (state === wanted[i] ? [] : [i]));
  const put = (cells: readonly Rounded[]) => book.apply({ do: 'batch', edits: editsOf(cells) });
  put(rounded);
  let best = rounded;
  let turned = off();
  const resting = restingOn(document);
  for (const figures of [neighbours, exact]) {
    for (const check of turned) {
      const mend = (): boolean => {
        for (const name of resting(check)) {
          const i = best.findIndex(({ was }) => was.name === name);
          const one = best[i];
          for (const cell of one === undefined ? [] : figures(one)) {
            const next = { ...(one as Rounded), cell };
            put([next]);
            const left = off();
            if (left.length < turned.length && !left.includes(check)) {
              [best, turned] = [best.with(i, next), left];
              return true;
            }
            book.undo();
          }
        }
        return false;
      };
      if (turned.includes(check)) mend();
    }
  }
  if (turned.length === 0) return best;
  // What no single figure mends stays as it was converted, with all that it rests on.
  const named = new Set(turned.flatMap((check) => resting(check)));
  const kept = best.filter(({ was }) => was.name === undefined || !named.has(was.name));
  return kept.length < best.length ? mended(document, kept) : [];
}

/** The names that a check rests on: those in its sentence and its formula first, then those behind them. */
function restingOn(document: BookDocument): (check: number) => readonly string[] {
  const formulas = new Map<string, Formula | undefined>(
    document.sheets.flatMap(({ rows }) =>
      rows.flatMap(({ cells = {} }) =>
        Object.values(cells).flatMap((cell) =>
          cell.name === undefined ? [] : [[cell.name, formulaOf(cell)] as const],
        ),
      ),
    ),
  );
  const namesOf = (formula: Formula | undefined): readonly string[] =>
    formula?.root === undefined
      ? []
      : [...nodesOf(formula.root)].flatMap((node) => (node.kind === 'name' ? [node.name] : []));
  return (check) => {
    const one = document.checks[check];
    if (one === undefined) return [];
    const found = new Set([...namesInSentence(one.says), ...namesOf(formulaOf(one))]);
    // A set hands out what is added to it meanwhile.
    for (const name of found) for (const next of namesOf(formulas.get(name))) found.add(next);
    return [...found];
  };
}

/** The next figures up and down that the cell takes, whole ones first. */
function neighbours({ was, cell }: Rounded): readonly CellDocument[] {
  const { value } = was;
  if (typeof value !== 'number' || was.quantity !== 'length') return [];
  const { min = -Infinity, max = Infinity } = cell.allow ?? {};
  return [roundLength, to(1), to(0.5), toTenths]
    .flatMap((round) => [round(value, 'up'), round(value, 'down')])
    .filter((one) => one !== cell.value && one >= min && one <= max)
    .map((one) => ({ ...cell, value: one }));
}

const exact = ({ was }: Rounded): readonly CellDocument[] => [was];

function roundCell(cell: CellDocument): CellDocument | undefined {
  const { value, formula, allow } = cell;
  if (formula !== undefined) return roundWordsOf(cell);
  if (typeof value === 'string') {
    // A choice is known by its words.
    const says = allow?.list === undefined ? inMillimeters(value, roundLength) : value;
    return says === value ? undefined : { ...cell, value: says };
  }
  if (typeof value !== 'number' || cell.role !== 'input') return undefined;
  const round = ROUND[cell.quantity ?? ''];
  if (round === undefined) return undefined;
  const inside = within(value, allow, round);
  const range = allow === undefined ? undefined : roundRange(allow, inside, round);
  if (inside === value && JSON.stringify(range) === JSON.stringify(allow)) return undefined;
  const { typed: _typed, other: _other, ...rest } = cell;
  return { ...rest, value: inside, ...(range === undefined ? {} : { allow: range }) };
}

/** Words in a formula, as the name of a board that begins with its thickness. */
function roundWordsOf(cell: CellDocument): CellDocument | undefined {
  const formula = formulaOf(cell);
  if (formula === undefined) return undefined;
  const next = keptOf(
    turnedFormula(formula, (token) =>
      token.type === 'string'
        ? { ...token, value: inMillimeters(token.value, roundLength) }
        : token,
    ),
  );
  if (next === cell.formula) return undefined;
  const { other: _other, ...rest } = cell;
  return { ...rest, formula: next };
}

type Round = (value: number, way?: 'up' | 'down') => number;

const to =
  (step: number): Round =>
  (value, way) => {
    // Converted, a number may lie a hair beside the step it stands for.
    const steps = Number((value / step).toFixed(9));
    const whole = { up: Math.ceil, down: Math.floor, near: Math.round }[way ?? 'near'](steps);
    return Number((whole * step).toPrecision(12));
  };

/** Up to these sizes, mm, marks of a rule are so far apart for whoever chooses a size; above, 5. */
const STEPS: readonly (readonly [below: number, step: number])[] = [
  [3, 0.5],
  [40, 1],
];

const roundLength: Round = (value, way) =>
  to(STEPS.find(([below]) => Math.abs(value) < below)?.[1] ?? 5)(value, way);

const toTenths: Round = to(0.1);

/** Two figures, as weights and contents are said. */
const twoFigures: Round = (value, way) =>
  value === 0 ? 0 : to(10 ** (Math.floor(Math.log10(Math.abs(value))) - 1))(value, way);

/** Loads are left as they are: tests and laws say them. */
const ROUND: Readonly<Record<string, Round>> = {
  length: roundLength,
  mass: twoFigures,
  liquid: twoFigures,
  pressure: twoFigures,
  coverage: twoFigures,
  temperature: to(1),
};

/** The nearest round figure that the cell takes; the exact one where no round one lies in its range. */
function within(value: number, { min, max }: Allow = {}, round: Round): number {
  const fits = (one: number): boolean =>
    (min === undefined || one >= min) && (max === undefined || one <= max);
  return [round(value), round(value, 'up'), round(value, 'down')].find(fits) ?? value;
}

/** The range on round figures, never wider than it was and never past what the cell holds. */
function roundRange(allow: Allow, value: number, round: Round): Allow {
  const { min, max } = allow;
  const [low, high] = [
    min === undefined ? undefined : round(min, 'up'),
    max === undefined ? undefined : round(max, 'down'),
  ];
  return {
    ...allow,
    ...(low === undefined || low > value ? {} : { min: low }),
    ...(high === undefined || high < value ? {} : { max: high }),
  };
}

const NUMBER = String.raw`\d+ \d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?`;
const LENGTHS = new RegExp(
  String.raw`\{[^{}]*\}|(?<![\d.,/:-])(${NUMBER})(?: (to|by) (${NUMBER}))? (in|ft)\b(?![²³/])(?! (?:the|a|all|each)\b)`,
  'g',
);
/** Exact: NIST SP 811. What stands in braces is said in the workbook's units anyway. */
const MM: Readonly<Record<string, number>> = { in: 25.4, ft: 304.8 };

/** Words with their lengths in millimeters; left as they are where they say millimeters already. */
function inMillimeters(words: string, round: Round): string {
  if (/\d mm\b/.test(words)) return words;
  return words.replace(
    LENGTHS,
    (
      all,
      one: string | undefined,
      between: string | undefined,
      other: string | undefined,
      unit,
    ) => {
      if (one === undefined) return all;
      const mm = (number: string): string => String(round(numberOf(number) * (MM[unit] ?? 1)));
      const second = other === undefined ? '' : ` ${between} ${mm(other)}`;
      return `${mm(one)}${second} mm`;
    },
  );
}

function numberOf(number: string): number {
  return number.split(' ').reduce((sum, part) => {
    const [over = 0, under = 1] = part.split('/').map(Number);
    return sum + over / under;
  }, 0);
}
