import { BookState, keptByIds } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { describe, expect, it, vi } from 'vitest';
import type { Engine, MakeEngine } from '../port.ts';
import { BUDGET } from '../results/meter.ts';
import { CompiledEngine } from './engine.ts';

/** Formulas that each ask for a number by chance, and together for more than all of them may cost. */
function bookOver(): BookState {
  const count = Math.ceil(BUDGET.together / 15_000) + 2;
  const formula = '=RANDBETWEEN(1,9)+SUM(SEQUENCE(100,150))';
  return keptByIds(
    BookState.of(documentOf({ sheets: { Out: Array.from({ length: count }, () => [formula]) } })),
  );
}

describe('a workbook whose formulas cost too much together', () => {
  it('B2 is handed on before any of them is worked out', () => {
    const asked = vi.spyOn(Math, 'random');
    const need = vi.fn<MakeEngine>(() => ({ destroy: () => undefined }) as Engine);
    const engine = new CompiledEngine(bookOver(), { isLoaded: true, need: () => need });
    expect(engine.isWhole).toBe(false);
    expect(need).toHaveBeenCalledOnce();
    expect(asked).not.toHaveBeenCalled();
    // They are worked out where there is no other engine to hand them on to.
    expect(
      () => new CompiledEngine(bookOver(), { isLoaded: false, need: () => need }),
    ).not.toThrow();
    expect(asked).toHaveBeenCalled();
    asked.mockRestore();
  });
});
