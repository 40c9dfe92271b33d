import { become } from './become.ts';

/** The sections of the guide as they stand in the page: only what is otherwise than before is put anew. */
export class SectionsShown {
  readonly #pages: HTMLElement;
  readonly #there = new Map<string, HTMLElement>();
  /** What was put last, by id; what the page came with is not known. */
  readonly #put = new Map<string, string>();
  /** Sections that are within the window, or nearly. */
  readonly #near = new Set<string>();
  readonly #watch: IntersectionObserver;
  readonly #onPut: (section: Element) => void;

  constructor(pages: HTMLElement, onPut: (section: Element) => void) {
    this.#pages = pages;
    this.#onPut = onPut;
    this.#watch = new IntersectionObserver(
      (seen) => {
        for (const { isIntersecting, target } of seen) {
          const id = idOf(target);
          if (isIntersecting) this.#near.add(id);
          else this.#near.delete(id);
        }
      },
      { rootMargin: '200px 0px' },
    );
    for (const one of pages.querySelectorAll<HTMLElement>(':scope > [data-section]')) {
      this.#there.set(idOf(one), one);
      this.#watch.observe(one);
    }
  }

  /** The section of an id, where it stands in the page. */
  at(id: string): HTMLElement | undefined {
    return this.#there.get(id);
  }

  /** The ids of all sections in the page. */
  get ids(): readonly string[] {
    return [...this.#there.keys()];
  }

  /** Whether any of a section is within the window, or nearly. */
  isNear(id: string): boolean {
    return this.#near.has(id);
  }

  /**
   * Puts a section where it belongs; takes it away where there is nothing of it.
   * @param order the ids of all sections, as they follow each other
   */
  put(id: string, html: string | undefined, order: () => readonly string[]): void {
    const old = this.#there.get(id);
    if (html === undefined) {
      this.remove(id);
      return;
    }
    old?.removeAttribute('aria-busy');
    if (old !== undefined && this.#put.get(id) === html) return;
    const made = madeOf(html);
    if (made === undefined) return;
    if (old === undefined) this.#insert(made, id, order);
    else become(old, made);
    this.#put.set(id, html);
    this.#onPut(old ?? made);
  }

  /** Takes a section away. */
  remove(id: string): void {
    const old = this.#there.get(id);
    if (old === undefined) return;
    this.#watch.unobserve(old);
    old.remove();
    this.#there.delete(id);
    this.#put.delete(id);
    this.#near.delete(id);
  }

  #insert(made: HTMLElement, id: string, order: () => readonly string[]): void {
    const all = order();
    const next = all.slice(all.indexOf(id) + 1).find((one) => this.#there.has(one));
    const before = next === undefined ? undefined : this.#there.get(next);
    if (before === undefined) this.#pages.append(made);
    else before.before(made);
    this.#there.set(id, made);
    this.#watch.observe(made);
  }
}

const idOf = (section: Element): string => section.getAttribute('data-section') ?? '';

function madeOf(html: string): HTMLElement | undefined {
  const frame = document.createElement('template');
  frame.innerHTML = html;
  const made = frame.content.firstElementChild;
  return made instanceof HTMLElement ? made : undefined;
}
