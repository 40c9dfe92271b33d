import { type At, type BookState, readFormula, type Step } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import { ownForEngine } from '../book/own-tables.ts';
import type { Calculator } from '../engine/calculator.ts';
import type { Differing, Engine, Evaluated, Pace, Recalculated } from '../port.ts';
import { apart } from './affected.ts';
import { buildCalculator } from './build.ts';
import { Telling } from './telling.ts';

/** The first engine: HyperFormula behind the port. */
export class HyperFormulaEngine implements Engine {
  /** The workbook as it is told; the engine asks for texts and the order of sheets of that. */
  readonly #now: { state: BookState };
  #calculator: Calculator;

  constructor(state: BookState) {
    this.#now = { state };
    this.#calculator = buildCalculator(this.#now);
  }

  follow(steps: readonly Step[], pace?: Pace): Recalculated {
    const last = steps.at(-1);
    if (last === undefined) return { cells: [], checks: [], anew: false };
    const telling = new Telling(this.#calculator, (state) => {
      this.#now.state = state;
    });
    this.#calculator.paced(pace, () => telling.tell(steps));
    this.#now.state = last.after;
    const anew = telling.anew || this.#calculator.stale;
    if (anew) this.restart(last.after);
    return { ...telling.differs.all(), anew };
  }

  restart(state: BookState): void {
    this.#now.state = state;
    this.destroy();
    this.#calculator = buildCalculator(this.#now);
  }

  get pending(): boolean {
    return this.#calculator.pending;
  }

  goOn(pace?: Pace): Differing {
    return apart(this.#calculator.goOn(pace));
  }

  value(at: At): CellValue {
    return this.#calculator.value(at);
  }

  precedents(at: At): readonly At[] {
    return this.#calculator.precedents(at);
  }

  dependents(at: At): readonly At[] {
    return this.#calculator.dependents(at);
  }

  evaluate(formula: string, sheet: string): Evaluated {
    const read = readFormula(formula);
    const own = ownForEngine(read, sheet, this.#now.state);
    return this.#calculator.evaluate(read.tokens, sheet, own);
  }

  /** Lets go of HyperFormula; nothing may be asked after it. */
  destroy(): void {
    this.#calculator.destroy();
  }
}
