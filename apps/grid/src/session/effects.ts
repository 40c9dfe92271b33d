import { breath, STRETCH, Watched } from '@kerfbook/keeping';
import type {
  Applied,
  At,
  Change,
  CheckState,
  Comparison,
  Edit,
  Followed,
  Moved,
  OpenWorkbook,
  Remembered,
} from '@kerfbook/workbook';
import { ByCell } from './by-cell.ts';

/** How a change came: by hand, by taking one back, by doing one again, or from elsewhere. */
export type Way = 'done' | 'undone' | 'again' | 'cameIn';

/** Why values were worked out anew without a change: a plan was proven, or a part of the app came. */
export type Anew = 'plan' | 'parts';

/** A check that stands otherwise than before. */
export interface Turned {
  readonly was: CheckState;
  readonly is: CheckState;
}

/** What came to something else. */
interface Difference {
  readonly moved: readonly Moved[];
  readonly turned: readonly Turned[];
}

/** What a change did, once all that follows from it has been worked out. */
export interface Effect extends Difference {
  readonly id: number;
  readonly way: Way;
  /** What was done, where its command has words for it: `Pasted 12 cells`. */
  readonly said?: string;
  /** What was carried out, and what takes it back. */
  readonly changes: readonly Change[];
  readonly inverse: readonly Change[];
  /** The steps of undo that it is, by their ids, the earliest first. */
  readonly steps: readonly number[];
  /** What came to something else after that, without another change. */
  readonly since?: Difference & { readonly why: Anew };
}

/** The last change, and the steps that can be taken back and done again, by ids, the last at the end. */
export interface EffectsState {
  readonly last?: Effect;
  /** What the value that a number is pulled to does now; no step yet, and its id is 0. */
  readonly trying?: Effect;
  readonly done: readonly number[];
  readonly undone: readonly number[];
}

interface Comparing {
  readonly by: Comparison;
  readonly end: (moved: readonly Moved[]) => void;
}

/** A change whose effect is not known yet. */
interface Open {
  readonly way: Way;
  said: string | undefined;
  readonly changes: Change[];
  readonly inverse: Change[];
  readonly steps: number[];
  readonly checks: readonly CheckState[];
  /** Where cells may differ; any may where it is left out. */
  cells: (readonly At[])[] | undefined;
}

/** A change that is tried, frame by frame. */
interface Trial {
  readonly cells: ByCell<At>;
  readonly all: At[];
  changes: readonly Change[];
  inverse: readonly Change[];
}

/** Cells that a pull is told of each frame; of more, those with names alone, which are looked at first anyway. */
const MOST_TRIED = 3_000;

/**
 * Tells what changes did: which cells and checks, on any sheet, came to something else. Nothing is compared
 * before a change has been painted, nor longer at a time than a key can wait.
 */
export class Effects {
  readonly state = new Watched<EffectsState>({ done: [], undone: [] });
  /** Someone says what changes did, in more than a count of cells. */
  isTold = false;
  readonly #book: OpenWorkbook;
  readonly #afterFrame: () => Promise<void>;
  #remembered: Remembered;
  readonly #said = new Map<number, string>();
  /** The edits behind the steps, as they were made. */
  readonly #edits = new Map<number, Edit>();
  #open: Open | undefined;
  #comparing: Comparing | undefined;
  #trial: Trial | undefined;
  #telling = false;
  #was: ByCell<Moved> | undefined;
  #checks: readonly CheckState[] = [];
  #ids = 0;

  constructor(book: OpenWorkbook, afterFrame: () => Promise<void> = breath) {
    this.#book = book;
    this.#afterFrame = afterFrame;
    this.#remembered = book.remember();
  }

  /** Looks at the workbook while nothing is done with it, so that the first change does not wait for it. */
  async warm(): Promise<void> {
    while (!this.#book.pending && this.#open === undefined) {
      if (this.#remembered.take(paced())) return;
      await breath();
    }
  }

  /** To be called before any change: all cells are remembered as they are. */
  before(): void {
    this.finish();
    if (this.#book.pending) return;
    this.#remembered.take();
    this.#checks = this.#book.checks();
  }

  /** A change is tried in the place of the one tried before it: what it does is told once it was painted. */
  tried({ edit, inverse, changed }: Applied): void {
    this.#trial ??= { cells: new ByCell(), all: [], changes: [], inverse: [] };
    this.#trial.changes = edit.changes;
    this.#trial.inverse = inverse.changes;
    this.#alsoTried(this.#trial, changed);
    this.ended();
  }

  /** What was tried is taken back, or kept as a change like any other. */
  leftTrying(): void {
    this.#trial = undefined;
    const { trying, ...rest } = this.state.value;
    if (trying !== undefined) this.state.set(rest);
  }

  #alsoTried({ cells, all }: Trial, changed: readonly At[]): void {
    for (const at of changed) {
      if (cells.get(at) !== undefined) continue;
      cells.set(at, at);
      all.push(at);
    }
  }

  /** Once a frame at the most, and only what is newest then. */
  async #tellTrial(): Promise<void> {
    if (this.#telling) return;
    this.#telling = true;
    await this.#afterFrame();
    this.#telling = false;
    const trial = this.#trial;
    if (trial === undefined || this.#book.pending) return;
    const cells =
      trial.all.length > MOST_TRIED
        ? this.#book.names().flatMap(({ at }) => trial.cells.get(at) ?? [])
        : trial.all;
    const trying: Effect = {
      id: 0,
      way: 'done',
      changes: trial.changes,
      inverse: trial.inverse,
      steps: [],
      moved: this.#remembered.differing(cells),
      turned: turnedBetween(this.#checks, this.#book.checks()),
    };
    this.state.set({ ...this.state.value, trying });
  }

  /** A change was carried out. One that comes before the last one is worked out is told with it. */
  begin(result: Applied, way: Way, said?: string): void {
    const { edit, inverse, changed, structure } = result;
    const step = way === 'cameIn' ? undefined : this.#step(way, said, edit);
    if (step === undefined) this.#keepWhatTurns();
    this.#was = undefined;
    this.#trial = undefined;
    const open = this.#open;
    if (open !== undefined) {
      open.changes.push(...edit.changes);
      open.inverse.unshift(...inverse.changes);
      if (step !== undefined) open.steps.push(step);
      open.said = undefined;
      this.followed({ changed, checks: [], structure });
      return;
    }
    this.#open = {
      way,
      said: said ?? (step === undefined ? undefined : this.#said.get(step)),
      changes: [...edit.changes],
      inverse: [...inverse.changes],
      steps: step === undefined ? [] : [step],
      checks: this.#checks,
      cells: structure ? undefined : [changed],
    };
  }

  /** More of what follows was worked out. */
  followed({ changed, structure }: Followed): void {
    if (this.#trial !== undefined) this.#alsoTried(this.#trial, changed);
    if (this.#open === undefined) return;
    if (structure) this.#open.cells = undefined;
    else this.#open.cells?.push(changed);
  }

  /** Nothing is left to be worked out: what the change did is looked for after the next frame. */
  ended(): void {
    if (this.#trial !== undefined && !this.#book.pending) void this.#tellTrial();
    const open = this.#open;
    if (open === undefined || this.#comparing !== undefined) return;
    this.#compare(open.cells?.flat(), (moved) => {
      this.#open = undefined;
      const { way, said, changes, inverse, steps } = open;
      this.#ids += 1;
      const last: Effect = {
        id: this.#ids,
        way,
        ...(said === undefined ? {} : { said }),
        changes,
        inverse,
        steps,
        // Counted in other units, all is as large as before.
        moved: changes.some(countsOtherwise) ? [] : moved,
        turned: turnedBetween(open.checks, this.#book.checks()),
      };
      const { trying: _trying, ...rest } = this.state.value;
      this.state.set({ ...rest, last });
    });
  }

  /** Values were worked out anew: what differs belongs to the last change, and is told as come later. */
  anew(why: Anew): void {
    if (this.state.value.last === undefined) {
      this.#remembered = this.#book.remember();
      return;
    }
    const checks = this.#checks;
    this.#compare(undefined, (moved) => {
      const now = this.#book.checks();
      const turned = turnedBetween(checks, now);
      this.#checks = now;
      const { last } = this.state.value;
      if (last === undefined || moved.length + turned.length === 0) return;
      const { since } = last;
      const more = since === undefined ? { moved, turned } : joined(since, { moved, turned });
      this.state.set({ ...this.state.value, last: { ...last, since: { why, ...more } } });
    });
  }

  /** Compares what is left at once: something else is about to change the workbook. */
  finish(): void {
    const { by } = this.#comparing ?? {};
    if (by === undefined) return;
    by.go();
    this.#compared();
  }

  /** What a cell came to before the last change, where that was something else. */
  was(at: At): Moved | undefined {
    const { last } = this.state.value;
    if (last === undefined || this.#open !== undefined) return undefined;
    if (this.#was === undefined) {
      this.#was = new ByCell();
      for (const one of last.moved) this.#was.set(one.at, one);
    }
    return this.#was.get(at);
  }

  /** What undo would take back, or redo do again: its edit, and what it was called; none where it is not known. */
  stepOf(which: 'undo' | 'redo'): { readonly edit?: Edit; readonly said?: string } {
    const { done, undone } = this.state.value;
    const step = (which === 'undo' ? done : undone).at(-1);
    if (step === undefined) return {};
    const [edit, said] = [this.#edits.get(step), this.#said.get(step)];
    return { ...(edit === undefined ? {} : { edit }), ...(said === undefined ? {} : { said }) };
  }

  /** What came in may leave nothing to take back, or to do again. */
  #keepWhatTurns(): void {
    const { canUndo, canRedo } = this.#book;
    const { done, undone } = this.state.value;
    this.state.set({
      ...this.state.value,
      done: canUndo ? done : [],
      undone: canRedo ? undone : [],
    });
  }

  #step(way: Way, said: string | undefined, edit: Edit): number {
    const { done, undone } = this.state.value;
    const from = way === 'undone' ? done : way === 'again' ? undone : [];
    // Steps of a log that was carried out before have no id yet.
    this.#ids += 1;
    const step = from.at(-1) ?? this.#ids;
    if (said !== undefined) this.#said.set(step, said);
    if (way === 'done') {
      this.#edits.set(step, edit);
      // What was undone before cannot be done again.
      for (const gone of undone) this.#edits.delete(gone);
    }
    this.state.set({
      ...this.state.value,
      done: way === 'undone' ? done.slice(0, -1) : [...done, step],
      undone: way === 'undone' ? [...undone, step] : way === 'again' ? undone.slice(0, -1) : [],
    });
    return step;
  }

  #compare(cells: readonly At[] | undefined, end: (moved: readonly Moved[]) => void): void {
    const comparing = { by: this.#remembered.compare(cells), end };
    this.#comparing = comparing;
    void this.#goOn(comparing);
  }

  async #goOn(comparing: Comparing): Promise<void> {
    await this.#afterFrame();
    while (comparing === this.#comparing) {
      if (comparing.by.go(paced())) this.#compared();
      else await breath();
    }
  }

  #compared(): void {
    const comparing = this.#comparing;
    this.#comparing = undefined;
    comparing?.end(comparing.by.moved);
  }
}

const countsOtherwise = (change: Change): boolean =>
  change.change === 'head' && change.set.units !== undefined;

/** Says no once a stretch is over. */
function paced(): () => boolean {
  const end = performance.now() + STRETCH;
  return () => performance.now() < end;
}

function turnedBetween(
  before: readonly CheckState[],
  after: readonly CheckState[],
): readonly Turned[] {
  if (before === after) return [];
  const known = new Map(before.map((one) => [one.id, one]));
  return after.flatMap((is) => {
    const was = known.get(is.id);
    return was === undefined || was.state === is.state ? [] : { was, is };
  });
}

/** Two differences, one after the other, as one. */
function joined(first: Difference, second: Difference): Difference {
  const keyOf = ({ ids: { sheet, row, column } }: Moved): string => `${sheet} ${row} ${column}`;
  const moved = new Map(first.moved.map((one) => [keyOf(one), one]));
  for (const one of second.moved) {
    const was = moved.get(keyOf(one))?.was ?? one.was;
    moved.set(keyOf(one), { ...one, was });
  }
  const turned = new Map(first.turned.map((one) => [one.is.id, one]));
  for (const one of second.turned) {
    turned.set(one.is.id, { was: turned.get(one.is.id)?.was ?? one.was, is: one.is });
  }
  return {
    moved: [...moved.values()],
    turned: [...turned.values()].filter(({ was, is }) => was.state !== is.state),
  };
}
