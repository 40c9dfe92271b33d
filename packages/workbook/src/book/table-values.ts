import { type At, type BookState, formulaOf, functionsIn, writtenText } from '@kerfbook/document';
import { functionReference } from '@kerfbook/functions';
import { howWords, ownFromUs, type Quantity, type RestsOn, restingOn } from '@kerfbook/wood';
import type { Explanation, TableValue } from '../api.ts';
import { type ShowContext, showWithUnit } from '../quantities/show.ts';

/** Works a formula out as if it stood on a sheet. */
export type Evaluate = (formula: string, sheet: string) => unknown;

/** Formulas worked out once more at the most for one explanation. */
const MOST = 200;

/** Functions that look in the trade's tables; plans cost too much to be made once more. */
const LOOKING: ReadonlySet<string> = new Set(
  functionReference()
    .filter(({ late }) => late !== true)
    .map(({ name }) => name),
);
const COSTLY: ReadonlySet<string> = new Set(
  functionReference()
    .filter(({ late }) => late === true)
    .map(({ name }) => name),
);

/**
 * What cells rest on in the trade's tables: their formulas are worked out once more, and the functions
 * tell which values they take.
 */
export function tableValues(
  state: BookState,
  evaluate: Evaluate | undefined,
  cells: readonly At[],
): Pick<Explanation, 'tables' | 'cautions'> {
  if (evaluate === undefined) return { tables: [], cautions: [] };
  const formulas = cells.flatMap((at) => looking(state, at)).slice(0, MOST);
  const { values, cautions } = restingOn(() => {
    for (const { text, sheet } of formulas) evaluate(text, sheet);
  });
  return { tables: values.map((value) => shown(state, value)), cautions };
}

function looking(state: BookState, at: At): readonly { text: string; sheet: string }[] {
  const formula = formulaOf(state.cell(at) ?? {});
  if (formula === undefined) return [];
  const names = functionsIn(formula);
  if (!names.some((name) => LOOKING.has(name)) || names.some((name) => COSTLY.has(name))) return [];
  return [{ text: writtenText(formula, at.sheet, state), sheet: at.sheet }];
}

/** Sizes of screws are finer than the fractions lengths usually show in. */
const DECIMALS: Partial<Record<Quantity, Pick<ShowContext, 'show'>>> = {
  length: { show: { as: 'decimal', decimals: 3 } },
};

function shown(state: BookState, { of, value, quantity, how, source, note }: RestsOn): TableValue {
  const { units: system, currency = 'USD' } = state.head;
  const own = value === undefined ? undefined : ownFromUs(quantity ?? 'number', value, system);
  return {
    of,
    how: howWords(how),
    source,
    ...(own === undefined
      ? {}
      : {
          shown: showWithUnit(
            { kind: 'number', number: own },
            { system, currency, quantity: quantity ?? 'number', ...DECIMALS[quantity ?? 'number'] },
          ),
        }),
    ...(note === undefined ? {} : { note }),
  };
}
