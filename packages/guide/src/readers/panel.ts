import { saveText } from '@kerfbook/workbook';
import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import { numberWords } from '../text/runs.ts';
import { addressFor, openedNames } from './address.ts';
import { element } from './element.ts';
import { Field, type FieldPage } from './field.ts';

/** What the panel needs of the page beside what its fields need. */
export interface PanelPage extends FieldPage {
  /** The tags of the plan's languages, the one that is shown first; one where there is no other. */
  readonly languages: readonly string[];
  /** Shows the page in the other language. */
  turnLanguage(): void;
  /** Goes back to the size that the plan came with. */
  reset(): void;
  /** Ticks are kept. */
  readonly keeps: boolean;
}

const UNITS = {
  us: 'inches and pounds',
  metric: 'millimeters and kilograms',
} as const;

/** Where readers choose their size, and what it comes to. */
export class Panel {
  readonly element: HTMLElement;
  readonly #page: PanelPage;
  readonly #fields: readonly Field[];
  readonly #results = element('dl', { class: 'guide-facts guide-comes-to' });
  readonly #warns = element('p', { class: 'guide-warns', role: 'status' });
  readonly #refused = element('div', { class: 'guide-refused', role: 'alert' });
  readonly #copied = element('p', { class: 'guide-copied', role: 'status' });

  constructor(page: PanelPage) {
    this.#page = page;
    const { say, book } = page;
    this.#fields = openedNames(book).map((name) => new Field(page, name));
    this.element = element(
      'section',
      { class: 'guide-panel', 'aria-labelledby': 'guide-panel-head' },
      element('h2', { id: 'guide-panel-head' }, say('Your size')),
      this.#refused,
      form(...this.#fields.map((one) => one.element), ...this.#switches()),
      this.#results,
      this.#warns,
      this.#doings(),
      this.#copied,
      element('p', { class: 'guide-hint' }, say('Nothing you enter here leaves this page.')),
      element(
        'p',
        { class: 'guide-hint guide-keeps' },
        say(
          page.keeps
            ? 'What you tick off is kept in this browser.'
            : 'This browser keeps nothing for this page: what you tick off is gone when you close it.',
        ),
      ),
    );
    this.#refused.hidden = true;
    this.follow();
    this.settle();
  }

  #switches(): readonly HTMLElement[] {
    const { say, book, languages } = this.#page;
    const units = element(
      'select',
      { id: 'guide-units' },
      ...(['us', 'metric'] as const).map((to) => element('option', { value: to }, say(UNITS[to]))),
    );
    units.value = book.units;
    units.addEventListener('change', () => {
      book.turnTo(units.value === 'metric' ? 'metric' : 'us');
      this.sync();
      this.#page.changed(false);
    });
    const lines = [line('guide-units', say('Units'), units)];
    const [shown, other] = languages;
    if (shown !== undefined && other !== undefined) {
      const language = element(
        'select',
        { id: 'guide-language' },
        ...languages.map((tag) => element('option', { value: tag, lang: tag }, languageName(tag))),
      );
      language.value = shown;
      language.addEventListener('change', () => this.#page.turnLanguage());
      lines.push(line('guide-language', say('Language'), language));
    }
    return lines;
  }

  #doings(): HTMLElement {
    const { say, book } = this.#page;
    const doing = (words: string, does: () => void): HTMLElement => {
      const made = element('button', { type: 'button' }, words);
      made.addEventListener('click', does);
      return made;
    };
    return element(
      'div',
      { class: 'guide-doings' },
      doing(say('Print'), () => print()),
      doing(say('Copy the link to this size'), () => void this.#copy()),
      doing(say('Save the workbook'), () => save(book)),
      doing(say('Back to the size of the plan'), () => this.#page.reset()),
      element('p', { class: 'guide-hint' }, say('Opens in Kerfbook, set to this size.')),
    );
  }

  async #copy(): Promise<void> {
    const { say, book } = this.#page;
    const link = location.href.replace(/#.*$/, '') + addressFor(book);
    try {
      await navigator.clipboard.writeText(link);
      this.#copied.textContent = say('The link is copied.');
    } catch {
      // Not every page may write to the clipboard: its reader can.
      const shown = element('input', {
        type: 'text',
        readonly: true,
        value: link,
        id: 'guide-link',
      });
      this.#copied.replaceChildren(
        element('label', { for: 'guide-link' }, say('Copy this link:')),
        shown,
      );
      shown.select();
    }
  }

  /** Says what of a link was not taken. */
  refuse(sentences: readonly string[]): void {
    const { say } = this.#page;
    this.#refused.hidden = sentences.length === 0;
    this.#refused.replaceChildren(
      element('p', {}, say('From the link this was not taken:')),
      element('ul', {}, ...sentences.map((says) => element('li', {}, says))),
    );
  }

  /** Shows what all inputs hold now. */
  sync(): void {
    for (const field of this.#fields) field.sync();
  }

  /** Shows what the size comes to. */
  follow(): void {
    const { book, theirs, say } = this.#page;
    const lines = (book.head.results ?? []).flatMap((name) => {
      const cell = book.named(name);
      if (cell === undefined || cell.value.kind === 'error' || cell.value.kind === 'empty')
        return [];
      const { words, aloud } = numberWords(cell);
      const shown =
        words === aloud
          ? words
          : element(
              'span',
              { class: 'kb-number' },
              element('span', { 'aria-hidden': 'true' }, words),
              element('span', { class: 'kb-aloud' }, aloud),
            );
      return [
        element(
          'div',
          {},
          element('dt', {}, theirs(book.labelOf(cell.at))),
          element('dd', {}, shown),
        ),
      ];
    });
    this.#results.hidden = lines.length === 0;
    this.#results.setAttribute('aria-label', say('Comes to'));
    this.#results.replaceChildren(...lines);
    const count = book.checks().filter(({ state }) => state !== 'pass').length;
    this.#warns.classList.toggle('guide-warns-some', count > 0);
    this.#warns.dataset.count = String(count);
  }

  /** Says how many checks warn, once nothing is pulled any more: said each frame, it could not be listened to. */
  settle(): void {
    const { say } = this.#page;
    const count = Number(this.#warns.dataset.count ?? '0');
    const sign = element('span', { 'aria-hidden': 'true' }, count > 0 ? '▲ ' : '✓ ');
    const words =
      count === 0
        ? say('Nothing warns at this size.')
        : count === 1
          ? say('One warning at this size')
          : say('{count} warnings at this size', { count: String(count) });
    const link = count === 0 ? words : element('a', { href: '#guide-checks' }, words);
    this.#warns.replaceChildren(sign, link);
    this.#copied.replaceChildren();
  }
}

const line = (id: string, words: string, control: HTMLElement): HTMLElement =>
  element(
    'div',
    { class: 'guide-field' },
    element('div', { class: 'guide-field-line' }, element('label', { for: id }, words), control),
  );

/** Nothing is sent anywhere: what Enter does in a field is that the entry counts. */
function form(...inside: readonly HTMLElement[]): HTMLElement {
  const made = element('form', { class: 'guide-inputs' }, ...inside);
  made.addEventListener('submit', (event) => event.preventDefault());
  return made;
}

function languageName(tag: string): string {
  try {
    return new Intl.DisplayNames([tag], { type: 'language' }).of(tag) ?? tag;
  } catch {
    return tag;
  }
}

/** The workbook as a file, set to the size it has now. */
function save(book: ReaderBook): void {
  const address = URL.createObjectURL(
    new Blob([saveText(book.document())], { type: 'application/json' }),
  );
  const name = book.title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
  element('a', { href: address, download: `${name || 'workbook'}.json` }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
