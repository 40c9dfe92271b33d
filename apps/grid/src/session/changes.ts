import { breath, STRETCH } from '@kerfbook/keeping';
import type {
  Applied,
  Edit,
  Followed,
  OpenWorkbook,
  Refused,
  TrialEdit,
  TurnSteps,
} from '@kerfbook/workbook';
import { called } from './called.ts';
import type { Anew, Effects, Way } from './effects.ts';
import type { Notices } from './notices.ts';
import type { Painting } from './painting.ts';
import type { Selecting } from './selecting.ts';
import type { Standing } from './standing.ts';
import type { News } from './was-shown.ts';

/** What a session is opened with. */
export interface SessionInput {
  readonly book: OpenWorkbook;
  readonly mayChange: boolean;
  /** False as soon as another workbook is open, or this one anew: nothing here is kept from then on. */
  readonly isOpen?: () => boolean;
  /** Keeps an edit that was carried out. */
  readonly record: (edit: Edit) => void;
  /** How long values are worked out before a key is heard and a frame drawn, in ms. */
  readonly stretch?: number;
  /** Comes once what was painted last has been seen. */
  readonly afterFrame?: () => Promise<void>;
}

/** From here on a maker is told that values are still being worked out, in ms. */
const NOTICED = 400;

/** What a screen reader is told first. */
const BEFORE: Readonly<Record<Way, string>> = {
  done: '',
  undone: 'Undone. ',
  again: 'Redone. ',
  cameIn: '',
};

export const READS_ONLY =
  'View only: this workbook is open elsewhere. Close it there, then choose "Edit here".';

/** What carrying out a change needs of the other rooms. */
interface Rooms {
  readonly standing: Standing;
  readonly notices: Notices;
  readonly painting: Painting;
  readonly selecting: Selecting;
  readonly effects: Effects;
}

/** Carries out changes, has them kept and painted, and tells what came of them. */
export class Changes {
  readonly #book: OpenWorkbook;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting: Painting;
  readonly #selecting: Selecting;
  readonly #effects: Effects;
  readonly #mayChange: () => boolean;
  readonly #record: (edit: Edit) => void;
  readonly #stretch: number;
  #stopped = false;
  /** What the last change did so far, to be announced once all of it is worked out. */
  #announced: { before: string; changed: number; whole?: string | undefined } = {
    before: '',
    changed: 0,
  };
  #keepingUp = false;
  /** What is being tried, and what was news before it. */
  #pull: { readonly trial: TrialEdit; readonly news: News; tried?: boolean } | undefined;
  /** What is still worked out is what was before a pull that was left: that is no news. */
  #isBack = false;

  constructor({ book, mayChange, isOpen, record, stretch = STRETCH }: SessionInput, rooms: Rooms) {
    this.#book = book;
    this.#standing = rooms.standing;
    this.#notices = rooms.notices;
    this.#painting = rooms.painting;
    this.#selecting = rooms.selecting;
    this.#effects = rooms.effects;
    this.#mayChange = () => mayChange && isOpen?.() !== false;
    this.#record = record;
    this.#stretch = stretch;
  }

  get mayChange(): boolean {
    return this.#mayChange();
  }

  /** The workbook once nothing is left to be worked out: for whatever copies, sorts or prints values. */
  settled(): OpenWorkbook {
    if (this.#book.pending) this.#followed(this.#book.goOn());
    return this.#book;
  }

  /** Whether more than inputs may be changed. Where not it says why, before anything is asked. */
  mayShape(): boolean {
    const says = this.mayChange ? this.#book.lock()?.says : READS_ONLY;
    if (says !== undefined) this.#notices.say(says);
    return says === undefined;
  }

  /** Carries an edit out and keeps it. `said`: what was done, in a sentence, where its cells do not say it. */
  apply = (edit: Edit, said?: string): Applied | Refused => {
    if (!this.mayChange) {
      this.#notices.say(READS_ONLY);
      return { ok: false, code: 'A1', says: READS_ONLY };
    }
    this.#effects.before();
    const result = this.#paced(() => this.#book.apply(edit));
    if (result.ok) this.#finish(result, 'done', said);
    else this.#refused(result);
    return result;
  };

  /** Carries out and keeps what was changed elsewhere (rule U6). Whoever brings it says why it was refused. */
  takeIn(edit: Edit, said: string, cameIn: TurnSteps): Applied | Refused {
    if (!this.mayChange) return { ok: false, code: 'A1', says: READS_ONLY };
    this.#effects.before();
    const result = this.#paced(() => this.#book.apply(edit, cameIn));
    if (result.ok) this.#finish(result, 'cameIn', said);
    else if (this.#book.pending) void this.#keepUp();
    return result;
  }

  #refused(result: Refused): void {
    if (result.thrown !== undefined) console.error(result.thrown);
    this.#notices.say(result.says);
    // What was worked out before it was refused is still to be painted.
    if (this.#book.pending) void this.#keepUp();
  }

  /**
   * Carries edits out one by one as one, drawing in between, so that they can be watched and stopped with
   * Escape (G51). True when all of it was put in.
   */
  async applyLong(says: string, edits: readonly Edit[], said?: string): Promise<boolean> {
    if (!this.mayChange || this.#standing.now.busy !== undefined) return false;
    // What it does is painted when it is kept, and not at all when it is dropped.
    this.settled();
    this.#effects.before();
    const long = this.#book.beginLong();
    if (!long.ok) {
      this.#refused(long);
      return false;
    }
    this.#stopped = false;
    for (const [i, edit] of edits.entries()) {
      this.#standing.set({ busy: { says, done: i / edits.length } });
      await breath();
      const stopped = this.#stopped || !this.mayChange;
      const result = stopped ? undefined : this.#paced(() => long.apply(edit));
      if (result?.ok === true) continue;
      long.drop();
      this.#standing.clear('busy');
      if (result === undefined) this.#notices.say('Stopped. Nothing was changed.');
      else this.#refused(result);
      return false;
    }
    this.#standing.clear('busy');
    this.#finish(long.keep(), 'done', said);
    return true;
  }

  /** Stops what is being put in; what was put in of it is taken out again. */
  stop(): void {
    this.#stopped = true;
  }

  /** Takes steps back, told as one change. */
  undo(times = 1): void {
    this.#turn('undone', times, () => this.#book.undo());
  }

  /** Does steps again that were taken back, told as one change. */
  redo(times = 1): void {
    this.#turn('again', times, () => this.#book.redo());
  }

  #turn(way: Way, times: number, step: () => Applied | Refused | undefined): void {
    if (!this.mayChange) return;
    this.#effects.before();
    for (let i = 1; i <= times; i += 1) {
      const result = this.#paced(step);
      if (result?.ok === false) this.#refused(result);
      if (result?.ok !== true) break;
      this.#finish(result, way, undefined, i < times);
    }
    if (!this.#book.pending) this.#effects.ended();
  }

  /** Begins a change that is tried, frame by frame, until it is let go or left. */
  beginPull(): boolean {
    // What was before it is whole, so that it can be gone back to.
    this.settled();
    this.#effects.before();
    const trial = this.#book.beginTrial();
    if (trial.ok) this.#pull = { trial, news: this.#painting.was.news };
    else this.#refused(trial);
    return trial.ok;
  }

  /** Has the workbook follow an edit in the place of the one tried before it, and paints what differs. */
  tryPull(edit: Edit, announced: () => string): void {
    const pull = this.#pull;
    if (pull === undefined) return;
    const result = this.#paced(() => pull.trial.try(edit));
    if (!result.ok) {
      this.#refused(result);
      return;
    }
    this.#isBack = false;
    const stale = pull.tried === true ? [] : this.#painting.was.begin();
    pull.tried = true;
    this.#paint(result);
    this.#effects.tried(result);
    if (stale.length > 0) this.#painting.repaint(stale);
    this.#look(result.structure, announced());
  }

  /** Works out what is left of the value tried last, as far as a frame allows. True once nothing is. */
  followOn(): boolean {
    if (this.#book.pending) this.#followed(this.#book.goOn(this.#pace()));
    return !this.#book.pending;
  }

  /** The value tried last is a change like any other from here on. */
  keepPull(): void {
    const kept = this.#pull?.trial.keep();
    this.#pull = undefined;
    if (kept === undefined) {
      this.#effects.leftTrying();
      return;
    }
    this.#carried(kept);
    this.#announced.changed = kept.changed.length;
    this.#look(kept.structure);
    if (this.#book.pending) void this.#keepUp();
    else this.#effects.ended();
  }

  /** Everything is as it was before the pull. `then` reads what is told of it. */
  dropPull<T>(then: () => T): T {
    const pull = this.#pull;
    this.#pull = undefined;
    this.#effects.leftTrying();
    if (pull === undefined) return then();
    const back = this.#paced(() => pull.trial.drop());
    const told = this.#painting.was.putBack(pull.news);
    this.#isBack = this.#book.pending;
    this.#painting.repaint([...back.changed, ...told, ...pull.news.cells]);
    this.#look(back.structure);
    if (this.#book.pending) void this.#keepUp();
    return then();
  }

  /** Shows what formulas come to now that a part of the engine is there that they had to do without. */
  recalculate(why: Anew): void {
    this.settled();
    this.#effects.before();
    this.#book.recalculate();
    this.#effects.anew(why);
    const { changes, structures } = this.#standing.now;
    this.#standing.set({ changes: changes + 1, structures: structures + 1 });
  }

  #finish(result: Applied, way: Way, said?: string, more = false): void {
    this.#carried(result, way, said);
    const stale = this.#painting.was.begin();
    this.#paint(result);
    if (stale.length > 0) this.#painting.repaint(stale);
    this.#look(result.structure);
    if (this.#book.pending) void this.#keepUp();
    else if (!more) this.#effects.ended();
  }

  /** A change was carried out: it is kept on the device, and what was asked before it is past. */
  #carried(result: Applied, way: Way = 'done', said?: string): void {
    performance.mark('kerfbook-commit');
    this.#isBack = false;
    this.#record(result.edit);
    // What was cut may stand elsewhere now, and an offer is about the last entry only.
    this.#standing.clear('offer');
    if (result.structure) this.#standing.clear('block');
    this.#announced = { before: BEFORE[way], changed: 0, whole: said };
    this.#effects.begin(result, way, said);
  }

  /** Paints what was worked out since, and has all of it looked at once nothing is left. */
  #followed(followed: Followed): void {
    this.#paint(followed);
    this.#effects.followed(followed);
    if (followed.structure || !this.#book.pending) this.#look(followed.structure);
    if (!this.#book.pending) this.#effects.ended();
  }

  #paint({ changed }: Followed): void {
    if (!this.#isBack) this.#painting.was.changed(changed);
    this.#painting.repaint(changed);
    this.#announced.changed += changed.length;
  }

  /** Has everything beside the grid look at the workbook again, and tells what came of the change. */
  #look(structure: boolean, announced?: string): void {
    const { changes, structures } = this.#standing.now;
    this.#standing.set({
      at: this.#selecting.inside(),
      changes: changes + 1,
      structures: structures + (structure ? 1 : 0),
      ...(announced === undefined ? this.#summary() : { announcement: announced }),
    });
  }

  /** Works out what an edit left, a stretch at a time, so that keys are heard in between. */
  async #keepUp(): Promise<void> {
    if (this.#keepingUp) return;
    this.#keepingUp = true;
    const began = Date.now();
    try {
      while (this.#book.pending) {
        await breath();
        const { busy, pulling } = this.#standing.now;
        // A pull follows its own frames.
        if (busy !== undefined || pulling !== undefined) break;
        this.#followed(this.#book.goOn(this.#pace()));
        if (this.#book.pending && Date.now() - began > NOTICED)
          this.#standing.set({ working: true });
      }
    } finally {
      this.#keepingUp = false;
      this.#isBack &&= this.#book.pending;
      this.#standing.clear('working');
    }
  }

  #paced<T>(change: () => T): T {
    this.#book.pace = this.#pace();
    try {
      return change();
    } finally {
      this.#book.pace = undefined;
    }
  }

  /** Says no once a stretch is over. */
  #pace(): () => boolean {
    const end = performance.now() + this.#stretch;
    return () => performance.now() < end;
  }

  /** What a screen reader is told at once. */
  #summary(): { readonly announcement?: string } {
    if (this.#book.pending) return { announcement: 'Working out what follows.' };
    if (this.#effects.isTold) return {};
    const { before, changed, whole } = this.#announced;
    if (whole !== undefined) return { announcement: whole };
    const cell =
      this.#book.sheet(this.#selecting.at.sheet) === undefined
        ? undefined
        : this.#book.cell(this.#selecting.at);
    const what = cell === undefined ? '' : `${called(cell.at, this.#book)} ${cell.shown.text}. `;
    const cells = `${changed} ${changed === 1 ? 'cell' : 'cells'} changed.`;
    return { announcement: `${before}${what}${cells}` };
  }
}
