/** What is ticked off, kept in the reader's browser where it keeps anything. */
export class Ticks {
  readonly #key: string;
  readonly #ticked: Set<string>;
  #keeps: boolean;

  constructor(plan: string) {
    this.#key = `kerfbook-plan:${plan}`;
    const [ticked, keeps] = read(this.#key);
    this.#ticked = ticked;
    this.#keeps = keeps;
  }

  /** The browser keeps it. */
  get keeps(): boolean {
    return this.#keeps;
  }

  /** Puts the boxes as they were ticked. A box is known by what its line says: at another size it is another one. */
  show(within: ParentNode): void {
    for (const box of within.querySelectorAll<HTMLInputElement>('input[data-tick]')) {
      box.checked = this.#ticked.has(box.dataset.tick ?? '');
    }
  }

  /** Notes what a box says now. */
  note(box: HTMLInputElement): void {
    const key = box.dataset.tick ?? '';
    if (box.checked) this.#ticked.add(key);
    else this.#ticked.delete(key);
    try {
      localStorage.setItem(this.#key, JSON.stringify([...this.#ticked]));
    } catch {
      this.#keeps = false;
    }
  }
}

function read(key: string): readonly [Set<string>, boolean] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? '[]');
    // Whether it may be written is known only once it is.
    localStorage.setItem(key, JSON.stringify(kept));
    const words = Array.isArray(kept) ? kept.filter((one) => typeof one === 'string') : [];
    return [new Set(words), true];
  } catch {
    return [new Set(), readable()];
  }
}

/** What is kept may be no list of ours; the store is there all the same. */
function readable(): boolean {
  try {
    localStorage.setItem('kerfbook-plan', '');
    localStorage.removeItem('kerfbook-plan');
    return true;
  } catch {
    return false;
  }
}
