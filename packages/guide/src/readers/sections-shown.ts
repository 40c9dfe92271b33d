import { GUIDE_PARTS, type GuidePart, type GuideSection } from '../page/options.ts';

const partOf = (id: string): GuidePart => GUIDE_PARTS.find((part) => part === id) ?? 'steps';

/** The parts of the guide as they stand in the page: only what is otherwise than before is put anew. */
export class SectionsShown {
  readonly #pages: HTMLElement;
  /** What was put last, by id; what the page came with is not known. */
  readonly #put = new Map<string, string>();
  readonly #onPut: (section: Element) => void;

  constructor(pages: HTMLElement, onPut: (section: Element) => void) {
    this.#pages = pages;
    this.#onPut = onPut;
  }

  /** The section of an id, where it stands in the page. */
  at(id: string): HTMLElement | undefined {
    return this.#all().find((one) => one.dataset.section === id);
  }

  #all(): HTMLElement[] {
    return [...this.#pages.querySelectorAll<HTMLElement>(':scope > [data-section]')];
  }

  /**
   * Puts all sections of these parts, in their order.
   * @param only those of these that are to be looked at; all where left out
   */
  show(
    sections: readonly GuideSection[],
    parts: ReadonlySet<GuidePart>,
    only: (id: string) => boolean = () => true,
  ): void {
    const wanted = new Set(sections.map(({ id }) => id));
    const there = new Map<string, HTMLElement>();
    for (const one of this.#all()) {
      const id = one.dataset.section ?? '';
      if (parts.has(partOf(id)) && !wanted.has(id)) {
        one.remove();
        this.#put.delete(id);
      } else there.set(id, one);
    }
    let before: HTMLElement | undefined;
    for (const { id, html } of sections) {
      const old = there.get(id);
      if (old !== undefined && (this.#put.get(id) === html || !only(id))) {
        before = old;
        continue;
      }
      const made = madeOf(html);
      if (made === undefined) continue;
      if (old !== undefined) old.replaceWith(made);
      else this.#insert(made, id, before);
      this.#put.set(id, html);
      this.#onPut(made);
      before = made;
    }
  }

  #insert(made: HTMLElement, id: string, before: HTMLElement | undefined): void {
    const place = GUIDE_PARTS.indexOf(partOf(id));
    if (before !== undefined && partOf(before.dataset.section ?? '') === partOf(id)) {
      before.after(made);
      return;
    }
    const next = this.#all().find(
      (one) => GUIDE_PARTS.indexOf(partOf(one.dataset.section ?? '')) > place,
    );
    if (next === undefined) this.#pages.append(made);
    else next.before(made);
  }
}

function madeOf(html: string): HTMLElement | undefined {
  const frame = document.createElement('template');
  frame.innerHTML = html;
  const made = frame.content.firstElementChild;
  return made instanceof HTMLElement ? made : undefined;
}
