import { NotLoaded } from '@kerfbook/functions';
import { CellError, ErrorType, type FunctionPlugin, type HyperFormula } from 'hyperformula';
import { person } from '../results/sentences.ts';

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
