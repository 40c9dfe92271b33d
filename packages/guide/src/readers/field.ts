import { type At, type Choice, snapped, withUnit } from '@kerfbook/workbook';
import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import { spoken } from '../text/spoken.ts';
import { element } from './element.ts';
import type { Put, Tongue } from './tongue.ts';

/** What a field needs of the page it stands in. */
export interface FieldPage {
  readonly book: ReaderBook;
  readonly tongue: Tongue;
  /** An input has another value; `pulling`: and is about to get the next: this is said within a frame, once. */
  changed(pulling: boolean): void;
}

interface ChoiceShown {
  readonly text: string;
  readonly value: string;
  readonly lang?: string | undefined;
}

/** An input of the plan in the page: its label, where it is entered, and why an entry was not taken. */
export class Field {
  readonly element: HTMLElement;
  readonly #page: FieldPage;
  readonly #name: string;
  readonly #control: HTMLInputElement | HTMLSelectElement;
  readonly #slider: HTMLInputElement | undefined;
  readonly #problem: HTMLElement;
  readonly #hint: HTMLElement;
  readonly #label: HTMLElement;
  /** What is pulled counts once a frame, however often the slider says so in between. */
  #frame: number | undefined;

  constructor(page: FieldPage, name: string) {
    this.#page = page;
    this.#name = name;
    const id = `guide-input-${name.replaceAll(/[^A-Za-z0-9_-]/g, '-')}`;
    this.#problem = element('p', { id: `${id}-problem`, class: 'guide-problem', role: 'alert' });
    this.#hint = element('span', { id: `${id}-hint`, class: 'guide-hint' });
    this.#label = element('label', { for: id });
    const described = `${id}-hint ${id}-problem`;
    const choices = this.#choices();
    this.#control =
      choices === undefined
        ? element('input', {
            id,
            type: 'text',
            autocomplete: 'off',
            spellcheck: 'false',
            'aria-describedby': described,
          })
        : element(
            'select',
            { id, 'aria-describedby': described },
            ...choices.map(({ text, value, lang }) => element('option', { value, lang }, text)),
          );
    this.#slider =
      choices === undefined && page.book.pull(this.#at) !== undefined
        ? element('input', { type: 'range', class: 'guide-slider' })
        : undefined;
    this.#control.addEventListener('change', () => this.#enter(this.#control.value, false));
    this.#slider?.addEventListener('input', () => this.#pulled(true));
    this.#slider?.addEventListener('change', () => this.#pulled(false));
    this.element = element(
      'div',
      { class: 'guide-field' },
      element('div', { class: 'guide-field-line' }, this.#label, this.#control),
      this.#slider,
      this.#hint,
      this.#problem,
    );
    this.sync();
  }

  get #at(): At {
    const cell = this.#page.book.named(this.#name);
    if (cell === undefined) throw new RangeError(`no input is named ${this.#name}`);
    return cell.at;
  }

  #choices(): readonly ChoiceShown[] | undefined {
    const { book, tongue } = this.#page;
    const cell = book.cell(this.#at);
    if (cell.quantity === 'logical' || cell.value.kind === 'logical') {
      return [
        { text: tongue.say('yes'), value: 'TRUE' },
        { text: tongue.say('no'), value: 'FALSE' },
      ];
    }
    const listed: readonly Choice[] | undefined = book.choices(this.#at);
    return listed?.map(({ text }) => ({
      text: tongue.theirs(text),
      value: text,
      lang: tongue.langOf(text),
    }));
  }

  /** Shows what the workbook holds now, in its units. */
  sync(): void {
    const { book, tongue } = this.#page;
    const cell = book.cell(this.#at);
    this.#label.replaceChildren(tongue.putTheirs(book.labelOf(cell.at)));
    if (this.#control instanceof HTMLSelectElement) this.#chooseIn(this.#control);
    else this.#control.value = cell.entry;
    this.#tell(undefined);
    const pull = book.pull(cell.at);
    const bound = (value: number | undefined): string | undefined =>
      value === undefined ? undefined : withUnit(pull?.entry(value) ?? '', cell.unit);
    const [low, high] = [bound(pull?.low), bound(pull?.high)];
    const unit = cell.unit === '' ? '' : cell.unit;
    if (low !== undefined && high !== undefined) {
      const from = pull?.entry(pull.low ?? 0) ?? '';
      this.#hint.replaceChildren(tongue.put('{low} to {high}', { low: from, high }));
    } else if (low !== undefined) this.#hint.replaceChildren(tongue.put('at least {low}', { low }));
    else if (high !== undefined) this.#hint.replaceChildren(tongue.put('at most {high}', { high }));
    else this.#hint.textContent = unit;
    this.#syncSlider();
  }

  #chooseIn(list: HTMLSelectElement): void {
    const { value } = this.#page.book.cell(this.#at);
    const word =
      value.kind === 'text'
        ? value.text
        : value.kind === 'logical'
          ? String(value.logical).toUpperCase()
          : value.kind === 'number'
            ? String(value.number)
            : '';
    const found = [...list.options].find((one) => one.value.toLowerCase() === word.toLowerCase());
    if (found !== undefined) list.value = found.value;
    else list.selectedIndex = -1;
  }

  #syncSlider(): void {
    const slider = this.#slider;
    const { book, tongue } = this.#page;
    const cell = book.cell(this.#at);
    const pull = book.pull(this.#at);
    if (slider === undefined) return;
    const isWhole = pull?.low !== undefined && pull.high !== undefined;
    slider.hidden = !isWhole;
    if (pull === undefined || pull.low === undefined || pull.high === undefined) return;
    slider.min = String(pull.low);
    slider.max = String(pull.high);
    slider.step = String(pull.step);
    slider.value = String(pull.value);
    slider.setAttribute(
      'aria-label',
      `${tongue.theirs(book.labelOf(cell.at))}, ${tongue.say('slide to change')}`,
    );
    slider.setAttribute('aria-valuetext', this.#aloud(spoken(cell.shown, cell.unit)));
  }

  #pulled(pulling: boolean): void {
    const pull = this.#page.book.pull(this.#at);
    if (pull === undefined || this.#slider === undefined) return;
    const value = snapped(pull, Number(this.#slider.value));
    const entry = pull.entry(value);
    if (this.#control instanceof HTMLInputElement) this.#control.value = entry;
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    this.#frame = undefined;
    if (!pulling) this.#enter(entry, false);
    else {
      this.#frame = requestAnimationFrame(() => {
        this.#frame = undefined;
        this.#enter(entry, true);
      });
    }
  }

  #enter(text: string, pulling: boolean): void {
    const refused = this.#page.book.enter(this.#at, text);
    this.#tell(refused?.says);
    if (refused !== undefined) return;
    if (!pulling) this.sync();
    else {
      const { shown, unit } = this.#page.book.cell(this.#at);
      this.#slider?.setAttribute('aria-valuetext', this.#aloud(spoken(shown, unit)));
    }
    this.#page.changed(pulling);
  }

  /** What is read aloud, where no elements may stand. */
  #aloud(words: string): string {
    const said: Put = this.#page.tongue.made(words);
    return typeof said === 'string' ? said : (said.textContent ?? words);
  }

  #tell(says: string | undefined): void {
    this.#problem.replaceChildren(...(says === undefined ? [] : [this.#page.tongue.made(says)]));
    this.#problem.hidden = says === undefined;
    if (says === undefined) this.#control.removeAttribute('aria-invalid');
    else this.#control.setAttribute('aria-invalid', 'true');
  }
}
