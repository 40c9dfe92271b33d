import type { ICellEditorComp, ICellEditorParams } from 'ag-grid-community';
import { enterInAll } from '../commands/commands.ts';
import { isFormula } from '../session/pointing.ts';
import type { Editing, Session } from '../session/session.ts';
import { colouredTokens, paintTokens } from '../writing/colours.ts';
import { helpKey } from '../writing/writing.ts';
import { ChoiceList } from './choice-list.ts';
import type { GridContext, Leave } from './context.ts';

/**
 * The editor in a cell. It holds nothing of its own: every key goes into the session's entry, which
 * the formula line shows at the same time. It is made and focused at once, so that no key is lost.
 */
export class CellEditor implements ICellEditorComp {
  #field = document.createElement('input');
  /** Holds the field over the coloured letters of a formula. */
  readonly #holder = document.createElement('div');
  readonly #under = document.createElement('div');
  #session: Session | undefined;
  /** The choices of a cell that has some. */
  #list: ChoiceList | undefined;
  #leave: GridContext['leave'] = () => undefined;
  #left = false;
  #shown: Editing | undefined;
  #ends: () => void = () => undefined;

  init(params: ICellEditorParams): void {
    const { session, leave } = params.context as GridContext;
    this.#session = session;
    this.#leave = leave;
    const { editing } = session;
    this.#field = textField(editing?.text ?? '');
    this.#field.className = 'cell-entry';
    if (session.state.value.pad === true) this.#field.inputMode = 'none';
    this.#field.setAttribute('aria-label', `Entry of ${session.current().address}`);
    for (const event of ['input', 'keyup', 'pointerup']) {
      this.#field.addEventListener(event, () => this.#tell());
    }
    this.#holder.className = 'cell-entry-holder';
    this.#under.className = 'entry-colours';
    this.#under.setAttribute('aria-hidden', 'true');
    this.#holder.append(this.#under, this.#field);
    this.#field.addEventListener('scroll', () => {
      this.#under.scrollLeft = this.#field.scrollLeft;
    });
    this.#ends = session.state.watch(() => this.#show());
    this.#colour();
    this.#field.addEventListener('keydown', (event) => this.#key(event as KeyboardEvent));
    const choices = session.book.choices(session.at);
    if (choices === undefined) return;
    const cell = session.current();
    this.#list = new ChoiceList({
      field: this.#field,
      label: `Choices of ${cell.name ?? cell.address}`,
      choices,
      held: cell.entry,
      onTake: (text) => this.#take(text, 'stay'),
    });
    this.#field.classList.add('has-choices');
    this.#field.addEventListener('input', () => this.#find());
    // A finger chose the list: the keyboard of the screen comes when the field is pressed.
    if (matchMedia('(pointer: coarse)').matches) {
      this.#field.inputMode = 'none';
      this.#field.addEventListener('pointerdown', () => {
        this.#field.inputMode = 'text';
      });
    }
  }

  /** What is written and where the caret stands goes to the session. */
  #tell(): void {
    const field = this.#field;
    if (this.#session?.editing?.from !== 'cell') return;
    this.#session.write(field.value, field.selectionEnd ?? field.value.length);
  }

  /** The letters of a formula in the colours of what they stand for. */
  #colour(): void {
    const { editing, book } = this.#session ?? {};
    if (editing === undefined || book === undefined) return;
    const coloured = isFormula(editing.text);
    this.#field.dataset.coloured = String(coloured);
    paintTokens(this.#under, coloured ? colouredTokens(book, editing) : []);
    this.#under.scrollLeft = this.#field.scrollLeft;
  }

  /** A completion or a reference pointed at comes from the session. */
  #show(): void {
    this.#colour();
    const { editing } = this.#session ?? {};
    const field = this.#field;
    if (editing?.from !== 'cell') return;
    // Other news of the session says nothing of the caret, which its maker may have moved.
    if (editing === this.#shown) return;
    this.#shown = editing;
    const isThere = field.value === editing.text;
    if (isThere && field.selectionEnd === editing.caret) return;
    if (!isThere) field.value = editing.text;
    field.setSelectionRange(editing.caret, editing.caret);
  }

  getGui(): HTMLElement {
    return this.#holder;
  }

  afterGuiAttached(): void {
    const field = this.#field;
    field.focus();
    const opensList = this.#list !== undefined && !isFormula(field.value) && field.value !== '';
    // What stands in a list's cell is chosen: what is written finds another choice in its place.
    field.setSelectionRange(opensList ? 0 : field.value.length, field.value.length);
    if (
      this.#list !== undefined &&
      this.#session?.editing?.mode === 'edit' &&
      !isFormula(field.value)
    ) {
      this.#list.open();
    }
  }

  getValue(): string {
    return this.#field.value;
  }

  /**
   * The grid takes the editor away when the maker clicks elsewhere: what was typed is taken over, or
   * kept on the formula line when it is refused.
   */
  destroy(): void {
    const session = this.#session;
    this.#ends();
    this.#list?.destroy();
    if (this.#left || session?.editing?.from !== 'cell') return;
    if (!session.commit()) session.toLine();
  }

  #key(event: KeyboardEvent): void {
    const session = this.#session;
    if (event.isComposing || session === undefined) return;
    if (helpKey(session, event, this.#selectedText())) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    const leave = leaveOf(event, session.editing?.mode ?? 'edit');
    if (this.#listKey(event, leave)) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
      if (enterInAll(session)) this.#end('stay');
    } else if (event.key === 'Escape') {
      session.cancel();
      this.#end('stay');
    } else if (leave !== undefined && !(event.altKey && event.key.startsWith('Arrow'))) {
      this.#finish(leave);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  }

  #selectedText(): readonly [number, number] {
    const field = this.#field;
    return [field.selectionStart ?? 0, field.selectionEnd ?? 0];
  }

  /** What is written finds in the list; a formula has none. */
  #find(): void {
    if (isFormula(this.#field.value)) this.#list?.close();
    else this.#list?.find(this.#field.value);
  }

  /** Arrows choose in the list, Enter and Tab take what is chosen. True: the key was the list's. */
  #listKey(event: KeyboardEvent, leave: Leave | undefined): boolean {
    const list = this.#list;
    if (list === undefined || isFormula(this.#field.value)) return false;
    const step = STEPS_IN_LIST[event.key];
    if (step !== undefined && !event.ctrlKey && !event.metaKey) {
      if (event.altKey && step < 0) list.close();
      else list.move(step);
      return true;
    }
    const { chosen } = list;
    if (chosen === undefined || (event.key !== 'Enter' && event.key !== 'Tab')) return false;
    if (event.ctrlKey || event.metaKey || leave === undefined) return false;
    this.#take(chosen, leave);
    return true;
  }

  #take(text: string, leave: Leave): void {
    this.#field.value = text;
    this.#session?.write(text);
    this.#finish(leave);
  }

  #finish(leave: Leave): void {
    const session = this.#session;
    if (session?.commit(this.#list !== undefined) === true) {
      this.#end(leave);
      return;
    }
    const { offer } = session?.state.value ?? {};
    if (offer?.atList === true) this.#list?.offer(this.#field.value, offer.says);
  }

  #end(leave: Leave): void {
    this.#left = true;
    this.#leave(leave);
  }
}

/** How far keys go in a list. */
const STEPS_IN_LIST: Readonly<Record<string, number>> = {
  ArrowDown: 1,
  ArrowUp: -1,
  PageDown: 8,
  PageUp: -8,
};

function leaveOf(event: KeyboardEvent, mode: 'fresh' | 'edit'): Leave | undefined {
  if (event.key === 'Enter') return event.shiftKey ? 'up' : 'down';
  if (event.key === 'Tab') return event.shiftKey ? 'previous' : 'next';
  if (mode === 'edit') return undefined;
  if (event.key === 'ArrowDown') return 'down';
  if (event.key === 'ArrowUp') return 'up';
  if (event.key === 'ArrowLeft') return 'left';
  return event.key === 'ArrowRight' ? 'right' : undefined;
}

function textField(text: string): HTMLInputElement {
  const field = document.createElement('input');
  field.type = 'text';
  field.value = text;
  field.autocomplete = 'off';
  field.spellcheck = false;
  field.setAttribute('role', 'combobox');
  field.setAttribute('aria-autocomplete', 'list');
  field.setAttribute('aria-expanded', 'false');
  field.setAttribute('aria-controls', 'entry-options');
  return field;
}
