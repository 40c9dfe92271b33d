import { Watched } from '@kerfbook/keeping';
import type { Effect, EffectsState, Session } from '../session/session.ts';
import { announced } from './announced.ts';
import { type Digest, digestOf } from './digest.ts';

/** What the last change did, and what was kept of changes before it. */
export interface Told {
  readonly last?: Digest;
  /** What the value that a number is pulled to does now. */
  readonly trying?: Digest;
  /** The one kept first comes first. */
  readonly kept: readonly Digest[];
}

/** So many are kept beside the last one; the oldest gives way. */
const MOST_KEPT = 5;

/** Puts into words what each change of a session did, says it to a screen reader, and keeps what is to be kept. */
export class Teller {
  readonly state = new Watched<Told>({ kept: [] });
  readonly #session: Session;
  readonly #end: () => void;
  #seen: Effect | undefined;
  #tried: Effect | undefined;

  constructor(session: Session) {
    this.#session = session;
    session.effects.isTold = true;
    this.#end = session.effects.state.watch(() => this.#changed());
    this.#changed();
  }

  /** What a change did stays in sight when others follow. */
  keep(id: number): void {
    const { value } = this.state;
    const { last, kept } = value;
    if (last?.id !== id || kept.some((one) => one.id === id)) return;
    this.state.set({ ...value, kept: [...kept, last].slice(-MOST_KEPT) });
  }

  /** It need not stay any longer. */
  dismiss(id: number): void {
    const { value } = this.state;
    this.state.set({ ...value, kept: value.kept.filter((one) => one.id !== id) });
  }

  close(): void {
    this.#end();
    this.#session.effects.isTold = false;
  }

  #changed(): void {
    const { last, trying } = this.#session.effects.state.value;
    // Where what was tried is kept, it stays in sight until it is told as the last change.
    const isKept = trying === undefined && last !== undefined && last !== this.#seen;
    if (!isKept) this.#follow(trying);
    if (last === undefined || last === this.#seen) return;
    this.#seen = last;
    // Whoever tells it may be about to change the workbook once more: it waits for none of this.
    setTimeout(() => {
      if (this.#session.effects.state.value.last === last) this.#tell(last);
    });
  }

  /** What is tried is told at once, and to nobody aloud: the number itself is said while it is pulled. */
  #follow(trying: Effect | undefined): void {
    if (trying === this.#tried) return;
    this.#tried = trying;
    const { trying: _trying, ...rest } = this.state.value;
    const { book } = this.#session;
    this.state.set(trying === undefined ? rest : { ...rest, trying: digestOf(trying, book) });
  }

  #tell(effect: Effect): void {
    const digest = digestOf(effect, this.#session.book);
    const { last: before, kept } = this.state.value;
    const isAddition = before?.id === digest.id;
    this.#tried = undefined;
    this.state.set({
      last: digest,
      kept: kept.map((one) => (one.id === digest.id ? digest : one)),
    });
    this.#session.announce(announced(digest, this.#session.book, isAddition));
  }
}

const tellers = new WeakMap<Session, Teller>();

/** The teller of a session, begun with the first who asks. */
export function tellerOf(session: Session): Teller {
  const known = tellers.get(session) ?? new Teller(session);
  tellers.set(session, known);
  return known;
}

/** What leads back from a change, or why nothing does. */
export interface WayBack {
  readonly label: string;
  readonly does?: (session: Session) => void;
}

/** How a change is taken back, or done again, as things stand. */
export function wayBack({ way, steps }: Effect, { done, undone }: EffectsState): WayBack {
  if (steps.length === 0) return { label: 'Came from elsewhere: undo leaves it' };
  const isUndone = way === 'undone';
  const stack = isUndone ? undone : done;
  const deepest = Math.min(...steps.map((step) => stack.indexOf(step)));
  if (deepest < 0) {
    const other = isUndone ? done : undone;
    const there = steps.some((step) => other.includes(step));
    if (!there) return { label: 'Other changes followed' };
    return { label: isUndone ? 'Redone already' : 'Undone already' };
  }
  const times = stack.length - deepest;
  const later = times - steps.length;
  const more = later === 0 ? '' : ` and ${later} later ${later === 1 ? 'change' : 'changes'}`;
  return isUndone
    ? { label: `Redo this${more}`, does: (session) => session.redo(times) }
    : { label: `Undo this${more}`, does: (session) => session.undo(times) };
}
