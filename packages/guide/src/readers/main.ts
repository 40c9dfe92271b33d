import { ReaderBook } from '@kerfbook/workbook/reader-book';
import { makingOf } from '../page/making.ts';
import { programNote } from '../page/program.ts';
import { readTranslation } from '../words/second-language.ts';
import { addressFor, openedNames, speaksOfSizes, takeAddress } from './address.ts';
import { PAGE_IDS, type PageData } from './page-data.ts';
import { Panel, type PanelPage } from './panel.ts';
import { Redraw } from './redraw.ts';
import { SectionsShown } from './sections-shown.ts';
import { Ticks } from './ticks.ts';
import { type Tongue, tongueOf } from './tongue.ts';

/** A page for readers that follows the size they choose. */
class ReadersPage {
  readonly #data: PageData;
  readonly #pages: HTMLElement;
  readonly #shown: SectionsShown;
  readonly #ticks: Ticks;
  #book: ReaderBook;
  #redraw: Redraw;
  #panel: Panel;
  #second = false;

  constructor(data: PageData, pages: HTMLElement) {
    this.#data = data;
    this.#pages = pages;
    this.#ticks = new Ticks(data.plan);
    this.#shown = new SectionsShown(pages, (section) => this.#ticks.show(section));
    this.#book = ReaderBook.open(data.book);
    this.#redraw = this.#redrawn();
    this.#panel = this.#panelFor();
    this.#place();
    this.#keepInSight();
    this.#ticks.show(pages);
    pages.addEventListener('change', ({ target }) => {
      if (target instanceof HTMLInputElement && target.dataset.tick !== undefined) {
        this.#ticks.note(target);
      }
    });
    addEventListener('hashchange', () => this.#follow(location.hash));
    addEventListener('beforeprint', () => this.#redraw.finish());
    if (!this.#follow(location.hash)) this.#redraw.complete();
  }

  #redrawn(): Redraw {
    const { day } = this.#data;
    return new Redraw(
      this.#book,
      this.#shown,
      () => ({ second: this.#second, ...(day === undefined ? {} : { day }) }),
      { followed: () => this.#panel.follow(), settled: () => this.#settled() },
    );
  }

  #panelFor(): Panel {
    const { guide } = this.#book.head;
    const [first, other] = [guide?.language ?? 'en', readTranslation(this.#book)?.language];
    const languages =
      other === undefined ? [first] : this.#second ? [other, first] : [first, other];
    const page: PanelPage = {
      book: this.#book,
      tongue: this.#tongue(),
      languages,
      keeps: this.#ticks.keeps,
      changed: (pulling) => this.#redraw.changed(pulling),
      turnLanguage: () => {
        this.#second = !this.#second;
        const [, to] = languages;
        if (to !== undefined) document.documentElement.lang = to;
        this.#anew();
        this.#foot();
        this.#redraw.changed(false);
        document.getElementById('guide-language')?.focus();
      },
      reset: () => this.#reset(),
    };
    return new Panel(page);
  }

  /** How the page speaks now. */
  #tongue(): Tongue {
    const translation = this.#second ? readTranslation(this.#book) : undefined;
    const labels = openedNames(this.#book).flatMap((name) => {
      const cell = this.#book.named(name);
      return cell === undefined ? [] : [this.#book.labelOf(cell.at)];
    });
    translation?.know(labels, true);
    return tongueOf(translation, this.#book.head.guide?.language);
  }

  /** What the foot says, in the language of the page. */
  #foot(): void {
    const foot = document.getElementById(PAGE_IDS.program);
    if (foot === null) return;
    const making = makingOf(this.#book, { second: this.#second });
    foot.innerHTML = programNote(making, this.#data.source)
      .map(({ markup }) => markup)
      .join('');
  }

  /** The panel stands behind the cover, where a phone has it under the drawing. */
  #place(): void {
    const cover = this.#shown.at('cover');
    if (cover === undefined) this.#pages.prepend(this.#panel.element);
    else cover.after(this.#panel.element);
  }

  #anew(): void {
    const old = this.#panel.element;
    this.#panel = this.#panelFor();
    old.replaceWith(this.#panel.element);
    this.#keepInSight();
  }

  /** While a size is chosen on a phone, the drawing stays in sight above what is chosen. */
  #keepInSight(): void {
    const { element } = this.#panel;
    const choosing = (isSo: boolean): void => {
      this.#pages.classList.toggle('guide-choosing', isSo);
    };
    choosing(false);
    element.addEventListener('focusin', () => choosing(true));
    element.addEventListener('focusout', ({ relatedTarget }) => {
      if (!(relatedTarget instanceof Node && element.contains(relatedTarget))) choosing(false);
    });
    new IntersectionObserver(([seen]) => {
      if (seen?.isIntersecting === false) choosing(false);
    }).observe(element);
  }

  #reset(): void {
    this.#redraw.stop();
    this.#book = ReaderBook.open(this.#data.book);
    this.#redraw = this.#redrawn();
    this.#anew();
    this.#redraw.changed(false);
  }

  /** @returns whether there was something to follow */
  #follow(address: string): boolean {
    if (!speaksOfSizes(address) || address === addressFor(this.#book)) return false;
    const refused = takeAddress(this.#book, address, this.#tongue().say);
    this.#anew();
    this.#panel.refuse(refused);
    this.#redraw.changed(false);
    return true;
  }

  #settled(): void {
    this.#panel.settle();
    document.documentElement.dataset.settled = String(
      Number(document.documentElement.dataset.settled ?? '0') + 1,
    );
  }
}

function begin(): void {
  document.getElementById(PAGE_IDS.noScript)?.remove();
  const [data, pages] = [PAGE_IDS.data, PAGE_IDS.pages].map((id) => document.getElementById(id));
  if (!data || !pages) return;
  new ReadersPage(JSON.parse(data.textContent ?? '') as PageData, pages);
  document.documentElement.dataset.ready = 'true';
}

begin();
