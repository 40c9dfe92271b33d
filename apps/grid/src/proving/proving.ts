import { type AskedPlan, keepFurther, type LengthsJob } from '@kerfbook/cutting';
import { cellPlans, keyOfCell, restingOn } from '@kerfbook/drawing';
import { Watched } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import { type Proof, prove } from './prover.ts';

/** What is being proven in a workbook. */
export interface ProvingState {
  /** Plans that are not proven, and that more is to be done about. */
  readonly open: number;
  /** Plans of which the maker said that nothing more is to be done. */
  readonly stopped: number;
  /** Grows when a plan was found that is another one than before. */
  readonly found: number;
}

const NOTHING: ProvingState = { open: 0, stopped: 0, found: 0 };

/** So long nothing is changed before plans are looked at, ms: who types a row of entries wants one proof. */
const QUIET = 250;

const keyOf = (job: LengthsJob): string => JSON.stringify(job);

/**
 * Has the plans that a workbook's cells answer with looked for further, one after the other, in a worker.
 * What is found answers the cells from then on. Where it is stopped, or a worker cannot be had, the first
 * plan stays.
 */
export class Proving {
  readonly state = new Watched<ProvingState>(NOTHING);
  readonly #session: Session;
  readonly #prove: (job: LengthsJob) => Proof;
  /** Asked for by sheets on paper beside the cells. */
  #wanted: readonly AskedPlan[] = [];
  #stopped = new Set<string>();
  #running: { readonly key: string; readonly proof: Proof } | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #changes = -1;
  #waits = false;
  readonly #end: () => void;

  constructor(session: Session, prover = prove) {
    this.#session = session;
    this.#prove = prover;
    this.#end = session.state.watch(() => this.#changed());
    this.#changed();
  }

  /** Has plans looked for further that no cell answers with. */
  want(plans: readonly AskedPlan[]): void {
    this.#wanted = plans.filter(({ state }) => state === 'open');
    this.#look();
  }

  /** Leaves what is open with the plans there are. */
  stop(): void {
    for (const { job } of this.#open().open) this.#stopped.add(keyOf(job));
    this.#look();
  }

  /** Takes up what was stopped. */
  goOn(): void {
    this.#stopped = new Set();
    this.#look();
  }

  close(): void {
    clearTimeout(this.#timer);
    this.#rest();
    this.#end();
    this.#show(new Map(), NOTHING);
  }

  #changed(): void {
    const { changes, pulling } = this.#session.state.value;
    const waits = pulling !== undefined;
    if (changes === this.#changes && waits === this.#waits) return;
    this.#changes = changes;
    this.#waits = waits;
    clearTimeout(this.#timer);
    // While a number is pulled the first plans count; the processor is for the frames.
    if (waits) this.#rest();
    else this.#timer = setTimeout(() => this.#look(), QUIET);
  }

  /** Leaves what is being looked for; it is begun again when it is looked at next. */
  #rest(): void {
    this.#running?.proof.stop();
    this.#running = undefined;
  }

  /** What cells and sheets rest on that is neither proven nor at its end. */
  #open(): { readonly open: readonly AskedPlan[]; readonly cells: readonly At[] } {
    const plans = cellPlans(this.#session.settled()).filter(
      ({ asked: { state } }) => state === 'open',
    );
    const known = new Set(plans.map(({ asked: { job } }) => keyOf(job)));
    const others = this.#wanted.filter(({ job }) => !known.has(keyOf(job)));
    const open = [...plans.map(({ asked }) => asked), ...others];
    return { open, cells: plans.flatMap((one) => one.cells) };
  }

  #look(): void {
    clearTimeout(this.#timer);
    if (this.#waits) return;
    const { book } = this.#session;
    const { open, cells } = this.#open();
    const isStopped = ({ job }: AskedPlan): boolean => this.#stopped.has(keyOf(job));
    const next = open.filter((one) => !isStopped(one));
    const keys = new Set(next.map(({ job }) => keyOf(job)));
    if (this.#running !== undefined && !keys.has(this.#running.key)) {
      this.#running.proof.stop();
      this.#running = undefined;
    }
    const { found } = this.state.value;
    const stopped = open.length - next.length;
    this.#show(restingOn(book, cells), { open: next.length, stopped, found });
    const [first] = next;
    if (this.#running === undefined && first !== undefined) this.#start(first);
  }

  #start({ job, plan: before }: AskedPlan): void {
    const key = keyOf(job);
    const proof = this.#prove(job);
    this.#running = { key, proof };
    proof.plan
      .catch((error: unknown) => {
        console.error(error);
        // The first plan is right, with a bound that holds: it is what there is.
        return before;
      })
      .then((plan) => {
        if (this.#running?.proof !== proof) return;
        this.#running = undefined;
        this.#wanted = this.#wanted.filter((one) => keyOf(one.job) !== key);
        const other = keepFurther(job, plan, before);
        const { value } = this.state;
        this.state.set({ ...value, found: value.found + 1 });
        if (other) this.#session.recalculate('plan');
        this.#look();
      });
  }

  /** Tells the session which cells rest on what is open, so that they bear a sign. */
  #show(resting: ReadonlyMap<string, At>, state: ProvingState): void {
    this.#session.setProving(state.open + state.stopped === 0 ? undefined : resting);
    const now = this.state.value;
    if (now.open === state.open && now.stopped === state.stopped && now.found === state.found)
      return;
    this.state.set(state);
  }
}

const provings = new WeakMap<Session, Proving>();

/** The proving of a session, begun with the first who asks. */
export function provingOf(session: Session): Proving {
  const known = provings.get(session) ?? new Proving(session);
  provings.set(session, known);
  return known;
}

/** Ends it with its session. */
export function endProving(session: Session): void {
  provings.get(session)?.close();
  provings.delete(session);
}

/** Whether a cell rests on a plan that is still being proven. */
export const isResting = (session: Session, at: At): boolean =>
  session.state.value.proving?.has(keyOfCell(at)) === true;
