import { saveText } from '@kerfbook/workbook';
import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import { numberWords } from '../text/runs.ts';
import { addressFor, openedNames } from './address.ts';
import { become } from './become.ts';
import { element } from './element.ts';
import { Field, type FieldPage } from './field.ts';
import type { Put } from './tongue.ts';

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
    const { tongue, book } = page;
    const { put } = tongue;
    this.#fields = openedNames(book).map((name) => new Field(page, name));
    this.element = element(
      'section',
      { class: 'guide-panel', 'aria-labelledby': 'guide-panel-head' },
      element('h2', { id: 'guide-panel-head' }, put('Your size')),
      this.#refused,
      form(...this.#fields.map((one) => one.element), ...this.#switches()),
      this.#results,
      this.#warns,
      this.#doings(),
      this.#copied,
      element('p', { class: 'guide-hint' }, put('Nothing you enter here leaves this page.')),
      element(
        'p',
        { class: 'guide-hint guide-keeps' },
        put(
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
    const { tongue, book, languages } = this.#page;
    const { say, put } = tongue;
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
    const lines = [line('guide-units', put('Units'), units)];
    const [shown, other] = languages;
    if (shown !== undefined && other !== undefined) {
      const language = element(
        'select',
        { id: 'guide-language' },
        ...languages.map((tag) => element('option', { value: tag, lang: tag }, languageName(tag))),
      );
      language.value = shown;
      language.addEventListener('change', () => this.#page.turnLanguage());
      lines.push(line('guide-language', put('Language'), language));
    }
    return lines;
  }

  #doings(): HTMLElement {
    const { tongue, book } = this.#page;
    const { put } = tongue;
    const doing = (words: Put, does: () => void): HTMLElement => {
      const made = element('button', { type: 'button' }, words);
      made.addEventListener('click', does);
      return made;
    };
    return element(
      'div',
      { class: 'guide-doings' },
      doing(put('Print'), () => print()),
      doing(put('Copy the link to this size'), () => void this.#copy()),
      doing(put('Save the workbook'), () => save(book)),
      doing(put('Back to the size of the plan'), () => this.#page.reset()),
      element('p', { class: 'guide-hint' }, put('Opens in Kerfbook, set to this size.')),
    );
  }

  async #copy(): Promise<void> {
    const { tongue, book } = this.#page;
    const { put } = tongue;
    const link = location.href.replace(/#.*$/, '') + addressFor(book);
    try {
      await navigator.clipboard.writeText(link);
      this.#copied.replaceChildren(put('The link is copied.'));
    } catch {
      // Not every page may write to the clipboard: its reader can.
      const shown = element('input', {
        type: 'text',
        readonly: true,
        value: link,
        id: 'guide-link',
      });
      this.#copied.replaceChildren(
        element('label', { for: 'guide-link' }, put('Copy this link:')),
        shown,
      );
      shown.select();
    }
  }

  /** Says what of a link was not taken. */
  refuse(sentences: readonly string[]): void {
    const { put, made } = this.#page.tongue;
    this.#refused.hidden = sentences.length === 0;
    this.#refused.replaceChildren(
      element('p', {}, put('From the link this was not taken:')),
      element('ul', {}, ...sentences.map((says) => element('li', {}, made(says)))),
    );
  }

  /** Shows what all inputs hold now. */
  sync(): void {
    for (const field of this.#fields) field.sync();
  }

  /** Shows what the size comes to. */
  follow(): void {
    const { book, tongue } = this.#page;
    const { putTheirs, made, say } = tongue;
    const lines = (book.head.results ?? []).flatMap((name) => {
      const cell = book.named(name);
      if (cell === undefined || cell.value.kind === 'error' || cell.value.kind === 'empty')
        return [];
      const { words, aloud } = numberWords(cell);
      const shown =
        words === aloud
          ? putTheirs(words)
          : element(
              'span',
              { class: 'kb-number' },
              element('span', { 'aria-hidden': 'true' }, words),
              element('span', { class: 'kb-aloud' }, made(aloud)),
            );
      return [
        element(
          'div',
          {},
          element('dt', {}, putTheirs(book.labelOf(cell.at))),
          element('dd', {}, shown),
        ),
      ];
    });
    become(
      this.#results,
      element(
        'dl',
        {
          class: 'guide-facts guide-comes-to',
          hidden: lines.length === 0,
          'aria-label': say('Comes to'),
        },
        ...lines,
      ),
    );
    const count = book.checks().filter(({ state }) => state !== 'pass').length;
    this.#warns.dataset.count = String(count);
  }

  /**
   * Says how many checks warn, once nothing is pulled any more: said each frame, it could not be listened to. Pieces that
   * come out of no board are one more, whether or not a check of the plan minds them.
   */
  settle(): void {
    const { put } = this.#page.tongue;
    const checks = Number(this.#warns.dataset.count ?? '0');
    const isLeftOut = document.querySelector('#guide-cutting-plan .guide-warning-care') !== null;
    const count = isLeftOut ? checks + 1 : checks;
    this.#warns.classList.toggle('guide-warns-some', count > 0);
    const sign = element('span', { 'aria-hidden': 'true' }, count > 0 ? '▲ ' : '✓ ');
    const words =
      count === 0
        ? put('Nothing warns at this size.')
        : count === 1
          ? put('One warning at this size')
          : put('{count} warnings at this size', { count: String(count) });
    const to = checks > 0 ? '#guide-checks' : '#guide-cutting-plan';
    const link = count === 0 ? words : element('a', { href: to }, words);
    this.#warns.replaceChildren(sign, link);
    this.#copied.replaceChildren();
  }
}

const line = (id: string, words: Put, control: HTMLElement): HTMLElement =>
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
