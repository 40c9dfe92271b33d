import {
  type At,
  choiceMeant,
  choicesNear,
  notAChoice,
  type OpenWorkbook,
} from '@kerfbook/workbook';
import { type Changes, READS_ONLY } from './changes.ts';
import { asRead } from './decimal-mark.ts';
import type { Notices } from './notices.ts';
import type { Painting } from './painting.ts';
import { isFormula } from './pointing.ts';
import { rangeOffer } from './range-offer.ts';
import type { Selecting } from './selecting.ts';
import type { Standing } from './standing.ts';
import type { Editing, Offer, Pointed } from './types.ts';

/** What writing an entry needs of the other rooms. */
interface Rooms {
  readonly standing: Standing;
  readonly notices: Notices;
  readonly painting: Painting;
  readonly selecting: Selecting;
  readonly changes: Changes;
}

/** The entry being written, in its cell or on the formula line, until it is taken over or left. */
export class Entry {
  readonly #book: OpenWorkbook;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting: Painting;
  readonly #selecting: Selecting;
  readonly #changes: Changes;
  /** The question about what is being written. */
  #question: Offer | undefined;

  constructor(book: OpenWorkbook, rooms: Rooms) {
    this.#book = book;
    this.#standing = rooms.standing;
    this.#notices = rooms.notices;
    this.#painting = rooms.painting;
    this.#selecting = rooms.selecting;
    this.#changes = rooms.changes;
  }

  begin(mode: Editing['mode'], from: Editing['from'], text?: string): boolean {
    if (!this.#changes.mayChange) {
      this.#notices.say(READS_ONLY);
      return false;
    }
    const lock = this.#book.lockOf(this.#selecting.at);
    if (lock !== undefined) {
      this.#notices.say(lock.says);
      return false;
    }
    const entry = text ?? this.#book.cell(this.#selecting.at).entry;
    this.#standing.set({
      editing: { at: this.#selecting.at, text: entry, mode, from, caret: entry.length },
    });
    return true;
  }

  write(text: string, caret = text.length): void {
    const { editing } = this.#standing.now;
    if (editing === undefined || (editing.text === text && editing.caret === caret)) return;
    const { at, mode, from, hushed } = editing;
    // A list that was put away stays so until the next letter.
    const quiet = hushed === true && editing.text === text ? { hushed } : {};
    this.#standing.set({ editing: { at, mode, from, text, caret, ...quiet } });
    // The cell shows what the formula line writes; its own editor shows itself.
    if (editing.from === 'line') this.#painting.repaint([editing.at]);
  }

  /** Takes over a text with a reference that was written by pointing. */
  point(text: string, pointed: Pointed): void {
    const { editing } = this.#standing.now;
    if (editing === undefined) return;
    this.#standing.set({ editing: { ...editing, text, caret: pointed.end, pointed } });
    if (editing.from === 'line') this.#painting.repaint([editing.at]);
  }

  choose(choice: number): void {
    const { editing } = this.#standing.now;
    if (editing !== undefined) this.#standing.set({ editing: { ...editing, choice } });
  }

  hushOptions(): void {
    const { editing } = this.#standing.now;
    if (editing !== undefined) this.#standing.set({ editing: { ...editing, hushed: true } });
  }

  cancel(): void {
    const { editing } = this.#standing.now;
    if (editing === undefined) return;
    this.#over();
    this.#home(editing.at);
    this.#painting.repaint([editing.at]);
  }

  /** Nothing is written any more, nor asked about it. */
  #over(): void {
    this.#standing.clear('editing', 'refused');
    if (this.#question !== undefined && this.#standing.now.offer === this.#question) {
      this.#standing.clear('offer');
    }
    this.#question = undefined;
  }

  /** Back to the sheet of what was written, where pointing led to another. */
  #home(at: At): void {
    if (at.sheet !== this.#selecting.at.sheet) this.#selecting.moveTo(at);
  }

  /** The entry goes on being written on the formula line: its cell's editor is gone. */
  toLine(): void {
    const { editing } = this.#standing.now;
    if (editing !== undefined)
      this.#standing.set({ editing: { ...editing, mode: 'edit', from: 'line' } });
  }

  /**
   * Takes the entry over. False when it was refused: then it stays as it was typed.
   * @param atList whether the cell's list asks what is to be asked about it
   */
  commit(atList = false): boolean {
    const { editing } = this.#standing.now;
    if (editing === undefined) return true;
    const { at } = editing;
    const cell = this.#book.cell(at);
    const text = asRead(editing.text, () => cell);
    if (text === cell.entry) {
      this.cancel();
      return true;
    }
    const listed = this.#asListed(at, text, atList);
    if (listed === undefined) return false;
    const { sheet, row, column } = at;
    const before = this.#book.value(at).kind;
    const result = this.#changes.apply({
      do: 'enter',
      sheet,
      cells: [{ row, column, text: listed }],
    });
    if (!result.ok) return false;
    this.#over();
    const offer = before === 'empty' ? rangeOffer(this.#book, at) : undefined;
    if (offer !== undefined) {
      const take = { says: 'Include it', does: () => this.#changes.apply(offer.edit) };
      this.#notices.offer({ says: offer.says, answers: [take], putAway: 'Dismiss' });
    }
    this.#ask(at);
    this.#home(at);
    this.#painting.repaint([at]);
    return true;
  }

  /**
   * The choice that a text stands for in a cell with a list, the text itself in any other; undefined where it
   * is in no list: then the nearest are offered, and what was written stays to be mended.
   */
  #asListed(at: At, text: string, atList: boolean): string | undefined {
    if (text.trim() === '' || isFormula(text) || text.startsWith("'")) return text;
    const choices = this.#book.choices(at);
    if (choices === undefined) return text;
    const meant = choiceMeant(text, choices);
    if (meant !== undefined) return meant.text;
    const answers = choicesNear(text, choices)
      .slice(0, 3)
      .map((choice) => ({ says: choice.text, does: () => this.#takeChoice(at, choice.text) }));
    const says = notAChoice(text, choices);
    this.#question = { says, answers, putAway: 'Go on writing', ...(atList ? { atList } : {}) };
    this.#notices.offer(this.#question);
    return undefined;
  }

  #takeChoice({ sheet, row, column }: At, text: string): void {
    this.#over();
    this.#changes.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    this.#painting.repaint([{ sheet, row, column }]);
  }

  /** Where an entry can mean two things, which of them. */
  #ask(at: At): void {
    const { choices, says = '' } = this.#book.cell(at).problem ?? {};
    if (choices === undefined) return;
    const { sheet, row, column } = at;
    const answers = choices.map((text) => ({
      says: text,
      does: () => this.#changes.apply({ do: 'enter', sheet, cells: [{ row, column, text }] }),
    }));
    const [question = says] = says.split(/(?<=\?) /);
    this.#notices.offer({ says: question, answers, putAway: 'Dismiss' });
  }
}
