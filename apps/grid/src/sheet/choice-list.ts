import { type Choice, choicesLike, choicesNear, type FoundChoice } from '@kerfbook/workbook';
import './choice-list.css';

interface Ground {
  /** What is written in: it keeps the focus, and tells of the list. */
  readonly field: HTMLInputElement;
  /** What the list is for, to a screen reader. */
  readonly label: string;
  readonly choices: readonly Choice[];
  /** What the cell holds. */
  readonly held: string;
  readonly onTake: (text: string) => void;
}

/** Room that is kept to the window's edges, and the list's greatest height, px. */
const ROOM = 4;
const HIGH = 340;

/**
 * The list under a cell with choices: arrows and the pointer choose in it, what is written finds in it. The
 * field keeps the focus, as a combobox does.
 */
export class ChoiceList {
  readonly #ground: Ground;
  readonly #element = document.createElement('div');
  readonly #says = document.createElement('p');
  readonly #list = document.createElement('div');
  readonly #ends: (() => void)[] = [];
  /** What is said over the grid moves the cell down, and the list with it. */
  readonly #room: ResizeObserver;
  #found: readonly FoundChoice[] = [];
  #chosen = -1;

  constructor(ground: Ground) {
    this.#ground = ground;
    this.#element.className = 'choice-list';
    this.#says.setAttribute('role', 'status');
    this.#list.id = 'choice-options';
    this.#list.setAttribute('role', 'listbox');
    this.#list.setAttribute('aria-label', ground.label);
    this.#element.append(this.#says, this.#list);
    // A press in the list leaves the focus where it is; the press itself takes, as in any list.
    for (const type of ['pointerdown', 'mousedown']) {
      this.#element.addEventListener(type, (event) => event.preventDefault());
    }
    this.#element.addEventListener('click', (event) => {
      const option = event.target instanceof Element ? event.target.closest('[role=option]') : null;
      const found = this.#found[Number(option?.getAttribute('aria-posinset') ?? 0) - 1];
      if (found !== undefined) ground.onTake(found.choice.text);
    });
    const { field } = ground;
    field.setAttribute('aria-controls', this.#list.id);
    const place = (): void => this.#place();
    window.addEventListener('resize', place);
    window.visualViewport?.addEventListener('resize', place);
    document.addEventListener('scroll', place, true);
    this.#room = new ResizeObserver(place);
    this.#ends.push(
      () => this.#room.disconnect(),
      () => window.removeEventListener('resize', place),
      () => window.visualViewport?.removeEventListener('resize', place),
      () => document.removeEventListener('scroll', place, true),
    );
  }

  destroy(): void {
    for (const end of this.#ends) end();
    this.#element.remove();
  }

  get isOpen(): boolean {
    return this.#element.isConnected;
  }

  /** The text of the choice that Enter takes; undefined where none is chosen. */
  get chosen(): string | undefined {
    return this.isOpen ? this.#found[this.#chosen]?.choice.text : undefined;
  }

  /** Shows all choices, that which the cell holds chosen. */
  open(): void {
    const { choices, held } = this.#ground;
    const at = choices.findIndex(({ text }) => text === held);
    this.#show(choicesLike('', choices), at);
  }

  /** Shows those that are like what is written, the likeliest chosen. */
  find(text: string): void {
    const { choices } = this.#ground;
    const found = choicesLike(text, choices);
    const wanted = text.trim().toLowerCase();
    const whole = found.findIndex(({ choice }) => choice.text.toLowerCase() === wanted);
    this.#show(found, wanted === '' ? -1 : Math.max(0, whole));
    if (found.length === 0) this.#say(`None of ${choices.length} is like it.`);
  }

  /** Shows the nearest of what was refused, the first chosen: Enter takes it. */
  offer(text: string, says: string): void {
    const { choices } = this.#ground;
    this.#show(
      choicesNear(text, choices)
        .slice(0, 8)
        .map((choice) => ({ choice })),
      0,
    );
    this.#say(says);
  }

  close(): void {
    this.#element.remove();
    this.#ground.field.setAttribute('aria-expanded', 'false');
    this.#ground.field.removeAttribute('aria-activedescendant');
  }

  /** Chooses so many on, staying within the list. */
  move(by: number): void {
    if (!this.isOpen) {
      this.open();
      return;
    }
    const last = this.#found.length - 1;
    this.#choose(Math.max(0, Math.min(last, this.#chosen + by)));
  }

  #say(says: string): void {
    this.#says.textContent = says;
    this.#place();
  }

  #show(found: readonly FoundChoice[], chosen: number): void {
    this.#found = found;
    this.#says.textContent = '';
    this.#list.replaceChildren(
      ...found.map(({ choice, by }, i) => {
        const option = document.createElement('div');
        option.id = `choice-option-${i}`;
        option.setAttribute('role', 'option');
        option.setAttribute('aria-posinset', String(i + 1));
        option.setAttribute('aria-setsize', String(found.length));
        option.textContent = choice.text;
        if (choice.text === this.#ground.held) option.classList.add('is-held');
        if (by !== undefined) {
          const also = document.createElement('span');
          also.className = 'quiet';
          also.textContent = ` ${by}`;
          option.append(also);
        }
        return option;
      }),
    );
    // Beside the grid's own box, which clips what is in it.
    if (!this.isOpen) {
      (document.querySelector('main') ?? document.body).append(this.#element);
      this.#room.observe(this.#ground.field.closest('.sheet-grid') ?? document.body);
    }
    this.#ground.field.setAttribute('aria-expanded', String(found.length > 0));
    this.#choose(found.length === 0 ? -1 : chosen);
    this.#place();
  }

  #choose(chosen: number): void {
    this.#chosen = chosen;
    for (const [i, option] of [...this.#list.children].entries()) {
      option.setAttribute('aria-selected', String(i === chosen));
    }
    const option = this.#list.children[chosen];
    option?.scrollIntoView({ block: 'nearest' });
    const { field } = this.#ground;
    if (option === undefined) field.removeAttribute('aria-activedescendant');
    else field.setAttribute('aria-activedescendant', option.id);
  }

  /** Under the cell, or over it where there is more room; never beyond what can be seen. */
  #place(): void {
    if (!this.isOpen) return;
    const cell = (
      this.#ground.field.closest('.ag-cell') ?? this.#ground.field
    ).getBoundingClientRect();
    const { innerWidth, innerHeight, visualViewport } = window;
    const wide = Math.min(innerWidth, visualViewport?.width ?? innerWidth);
    const high = Math.min(innerHeight, visualViewport?.height ?? innerHeight);
    const below = high - cell.bottom - ROOM;
    const above = cell.top - ROOM;
    const { style } = this.#element;
    style.minInlineSize = `${Math.min(cell.width, wide - 2 * ROOM)}px`;
    style.maxInlineSize = `${wide - 2 * ROOM}px`;
    style.maxBlockSize = `${Math.min(HIGH, Math.max(below, above))}px`;
    const { offsetWidth, offsetHeight } = this.#element;
    const under = offsetHeight <= below || below >= above;
    style.insetInlineStart = `${Math.max(ROOM, Math.min(cell.left, wide - offsetWidth - ROOM))}px`;
    style.insetBlockStart = `${under ? cell.bottom : cell.top - offsetHeight}px`;
  }
}
