import { NotLoaded } from '@kerfbook/functions';
import { numberFormats } from '@kerfbook/functions/libraries';
import { CellError, ErrorType, type FunctionPlugin, type HyperFormula } from 'hyperformula';
import { person } from '../results/sentences.ts';

/**
 * What TEXT() writes: number format codes of the open spreadsheet formats through numfmt. `# ??/16`
 * is written reduced, as a maker writes it: `1 1/2`, not `1 8/16`.
 * @throws {NotLoaded} while numfmt is still on its way
 */
export function formatNumber(value: number, code: string): string | undefined {
  const fraction = /\?+\/(\d+)$/.exec(code)?.[1];
  if (fraction !== undefined) return reduced(value, Number(fraction));
  const { format } = numberFormats.need();
  try {
    return format(code, value);
  } catch {
    return undefined;
  }
}

function reduced(value: number, denominator: number): string {
  const parts = Math.round(Math.abs(value) * denominator);
  const whole = Math.floor(parts / denominator);
  let over = parts % denominator;
  let under = denominator;
  while (over !== 0 && over % 2 === 0 && under % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const sign = value < 0 && parts > 0 ? '-' : '';
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

/** Puts TEXT as it waits for its formats in the place of the engine's own, once for the process. */
export function registerText(engine: typeof HyperFormula): void {
  const Standard = engine.getFunctionPlugin('TEXT');
  const about = Standard?.implementedFunctions.TEXT;
  if (Standard === undefined || about === undefined) throw new Error('the engine has no TEXT');

  class Text extends Standard {
    static override implementedFunctions = { TEXT: { ...about, method: 'textOrWait' } };

    textOrWait(ast: Ast, state: State) {
      const standard: unknown = Reflect.get(this, about?.method ?? '');
      if (typeof standard !== 'function') throw new Error('the engine cannot work out TEXT');
      try {
        return standard.call(this, ast, state);
      } catch (error) {
        // The engine would take the whole sheet down with it.
        if (error instanceof NotLoaded) return new CellError(ErrorType.ERROR, person('E21'));
        throw error;
      }
    }
  }
  engine.registerFunctionPlugin(Text, { enGB: { TEXT: 'TEXT' } });
}
