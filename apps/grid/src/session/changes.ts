import { breath, STRETCH } from '@kerfbook/keeping';
import type { Applied, Edit, Followed, OpenWorkbook, Refused } from '@kerfbook/workbook';
import type { Notices } from './notices.ts';
import type { Painting } from './painting.ts';
import type { Selecting } from './selecting.ts';
import type { Standing } from './standing.ts';

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
}

/** From here on a maker is told that values are still being worked out, in ms. */
const NOTICED = 400;

export const READS_ONLY = 'This tab only reads: the workbook is open for writing in another tab.';

/** What carrying out a change needs of the other rooms. */
interface Rooms {
  readonly standing: Standing;
  readonly notices: Notices;
  readonly painting: Painting;
  readonly selecting: Selecting;
}

/** Carries out changes, has them kept and painted, and tells what came of them. */
export class Changes {
  readonly #book: OpenWorkbook;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting: Painting;
  readonly #selecting: Selecting;
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

  constructor({ book, mayChange, isOpen, record, stretch = STRETCH }: SessionInput, rooms: Rooms) {
    this.#book = book;
    this.#standing = rooms.standing;
    this.#notices = rooms.notices;
    this.#painting = rooms.painting;
    this.#selecting = rooms.selecting;
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

  /** Carries an edit out and keeps it. `announcement` says what came of it where its cells do not. */
  apply = (edit: Edit, announcement?: string): Applied | Refused => {
    if (!this.mayChange) {
      this.#notices.say(READS_ONLY);
      return { ok: false, code: 'A1', says: READS_ONLY };
    }
    const result = this.#paced(() => this.#book.apply(edit));
    if (result.ok) this.#done(result, '', announcement);
    else this.#refused(result);
    return result;
  };

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
  async applyLong(says: string, edits: readonly Edit[]): Promise<boolean> {
    if (!this.mayChange || this.#standing.now.busy !== undefined) return false;
    // What it does is painted when it is kept, and not at all when it is dropped.
    this.settled();
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
    this.#done(long.keep());
    return true;
  }

  /** Stops what is being put in; what was put in of it is taken out again. */
  stop(): void {
    this.#stopped = true;
  }

  undo(): void {
    const result = this.mayChange ? this.#paced(() => this.#book.undo()) : undefined;
    if (result?.ok === true) this.#done(result, 'Undone. ');
    else if (result !== undefined) this.#refused(result);
  }

  redo(): void {
    const result = this.mayChange ? this.#paced(() => this.#book.redo()) : undefined;
    if (result?.ok === true) this.#done(result, 'Done again. ');
    else if (result !== undefined) this.#refused(result);
  }

  /** Shows what formulas come to now that a part of the engine is there that they had to do without. */
  recalculate(): void {
    this.settled();
    this.#book.recalculate();
    const { changes, structures } = this.#standing.now;
    this.#standing.set({ changes: changes + 1, structures: structures + 1 });
  }

  #done(result: Applied, before = '', whole?: string): void {
    performance.mark('kerfbook-commit');
    this.#record(result.edit);
    // What was cut may stand elsewhere now, and an offer is about the last entry only.
    this.#standing.clear('offer');
    if (result.structure) this.#standing.clear('block');
    this.#announced = { before, changed: 0, whole };
    const stale = this.#painting.was.begin();
    this.#paint(result);
    if (stale.length > 0) this.#painting.repaint(stale);
    this.#look(result.structure);
    if (this.#book.pending) void this.#keepUp();
  }

  /** Paints what was worked out since, and has all of it looked at once nothing is left. */
  #followed(followed: Followed): void {
    this.#paint(followed);
    if (followed.structure || !this.#book.pending) this.#look(followed.structure);
  }

  #paint({ changed }: Followed): void {
    this.#painting.was.changed(changed);
    this.#painting.repaint(changed);
    this.#announced.changed += changed.length;
  }

  /** Has everything beside the grid look at the workbook again, and tells what came of the change. */
  #look(structure: boolean): void {
    const { changes, structures } = this.#standing.now;
    this.#standing.set({
      at: this.#selecting.inside(),
      changes: changes + 1,
      structures: structures + (structure ? 1 : 0),
      announcement: this.#book.pending ? 'Working out what follows.' : this.#summary(),
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
        if (this.#standing.now.busy !== undefined) break;
        this.#followed(this.#book.goOn(this.#pace()));
        if (this.#book.pending && Date.now() - began > NOTICED)
          this.#standing.set({ working: true });
      }
    } finally {
      this.#keepingUp = false;
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

  #summary(): string {
    const { before, changed, whole } = this.#announced;
    if (whole !== undefined) return whole;
    const cell =
      this.#book.sheet(this.#selecting.at.sheet) === undefined
        ? undefined
        : this.#book.cell(this.#selecting.at);
    const what = cell === undefined ? '' : `${cell.name ?? cell.address} ${cell.shown.text}. `;
    return `${before}${what}${changed} ${changed === 1 ? 'cell' : 'cells'} changed.`;
  }
}
