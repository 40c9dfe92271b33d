import { forgetFurther, type LengthsJob, type LengthsPlan, planLengths } from '@kerfbook/cutting';
import { planted } from '@kerfbook/cutting/testing';
import { loadText, Workbook } from '@kerfbook/workbook';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Session } from '../session/session.ts';
import type { Proof } from './prover.ts';
import { Proving } from './proving.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
  forgetFurther();
});

/** A prover that is told when to come to an end, and with what. */
function prover() {
  const asked: {
    readonly job: LengthsJob;
    stopped: boolean;
    come: (plan: LengthsPlan) => void;
    fail: () => void;
  }[] = [];
  const prove = (job: LengthsJob): Proof => {
    const one = {
      job,
      stopped: false,
      come: (_: LengthsPlan): void => undefined,
      fail: (): void => undefined,
    };
    const plan = new Promise<LengthsPlan>((resolve, reject) => {
      one.come = resolve;
      one.fail = () => reject(new Error('no worker'));
    });
    asked.push(one);
    return {
      plan,
      stop: () => {
        one.stopped = true;
      },
    };
  };
  return { asked, prove };
}

const JOB = (() => {
  for (let seed = 1; seed < 100; seed += 1) {
    const job = planted(seed, 12);
    if (planLengths(job).bought === 13) return job;
  }
  throw new Error('every first plan is the best one');
})();

const LENGTHS = JOB.parts.map(({ length }) => length).join(';');
const COUNTS = JOB.parts.map(() => 1).join(';');
const formula = (kerf: string): string => `=BUY_COST({${LENGTHS}},{${COUNTS}},{96},{10},${kerf})`;
const at = (row: number) => ({ sheet: 's1', row, column: 0 });

function begun(prove: (job: LengthsJob) => Proof) {
  const columns = [{ id: 'c1' }];
  const rows = [
    { id: 'r1', cells: { c1: { formula: formula('1/8') } } },
    { id: 'r2', cells: { c1: { formula: '=[c1.r1]*2' } } },
    { id: 'r3' },
  ];
  const sheets = [{ id: 's1', name: 'Boards', columns, rows }];
  const text = { kerfbook: 8, title: 'Boards', units: 'us', sheets, checks: [], tables: [] };
  const loaded = loadText(JSON.stringify(text));
  if (!loaded.ok) throw new Error(loaded.says);
  const book = Workbook.open(loaded.document);
  const stretch = Number.POSITIVE_INFINITY;
  const session = new Session({ book, mayChange: true, stretch, record: () => undefined });
  const proving = new Proving(session, prove);
  vi.runOnlyPendingTimers();
  const number = (row: number): unknown => {
    const value = book.value(at(row));
    return value.kind === 'number' ? value.number : value;
  };
  const enter = (row: number, entry: string): void => {
    session.apply({ do: 'enter', sheet: 's1', cells: [{ row, column: 0, text: entry }] });
    vi.runOnlyPendingTimers();
  };
  const signed = (): number => session.state.value.proving?.size ?? 0;
  return { session, proving, number, enter, signed };
}

const settle = async (): Promise<void> => {
  for (let i = 0; i < 5; i += 1) await Promise.resolve();
};

describe('plans that are proven behind the cells', () => {
  it('are open until a plan comes, which cells answer with from then on', async () => {
    const { asked, prove } = prover();
    const { proving, number, signed } = begun(prove);
    expect([number(0), number(1)]).toEqual([130, 260]);
    expect(proving.state.value).toMatchObject({ open: 1, stopped: 0 });
    expect(signed()).toBe(2);
    const best = planLengths({ ...JOB, effort: 'proof' });
    asked[0]?.come(best);
    await settle();
    expect([number(0), number(1)]).toEqual([best.cost, best.cost * 2]);
    expect(best.cost).toBe(120);
    expect(proving.state.value).toMatchObject({ open: 0, stopped: 0 });
    expect(signed()).toBe(0);
    expect(asked).toHaveLength(1);
  });

  it('are ended where the maker stops them, and taken up again', async () => {
    const { asked, prove } = prover();
    const { proving, number, enter, signed } = begun(prove);
    proving.stop();
    expect(asked[0]?.stopped).toBe(true);
    expect(proving.state.value).toMatchObject({ open: 0, stopped: 1 });
    asked[0]?.come(planLengths({ ...JOB, effort: 'proof' }));
    await settle();
    enter(2, '7');
    expect([number(0), asked.length, signed()]).toEqual([130, 1, 2]);
    proving.goOn();
    expect(asked).toHaveLength(2);
    asked[1]?.come(planLengths({ ...JOB, effort: 'proof' }));
    await settle();
    expect(number(0)).toBe(120);
  });

  it('are ended where no cell rests on them any more', async () => {
    const { asked, prove } = prover();
    const { proving, enter, signed } = begun(prove);
    enter(0, '5');
    expect(asked[0]?.stopped).toBe(true);
    expect(proving.state.value.open).toBe(0);
    expect(signed()).toBe(0);
    enter(0, formula('1/8'));
    expect(asked).toHaveLength(2);
    proving.close();
    expect(asked[1]?.stopped).toBe(true);
    expect(signed()).toBe(0);
  });

  it('keep the first plan where no worker is to be had, and are not tried without end', async () => {
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const { asked, prove } = prover();
    const { proving, number, enter } = begun(prove);
    asked[0]?.fail();
    await settle();
    expect(number(0)).toBe(130);
    expect(proving.state.value).toMatchObject({ open: 0, stopped: 0 });
    enter(2, '7');
    expect(asked).toHaveLength(1);
    expect(said).toHaveBeenCalledTimes(1);
    said.mockRestore();
  });
});
