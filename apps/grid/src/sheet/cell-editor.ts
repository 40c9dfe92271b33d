import type { ICellEditorComp, ICellEditorParams } from 'ag-grid-community';
import { enterInAll } from '../commands/commands.ts';
import { isFormula } from '../session/pointing.ts';
import type { Session } from '../session/session.ts';
import { colouredTokens, paintTokens } from '../writing/colours.ts';
import { helpKey } from '../writing/writing.ts';
import type { GridContext, Leave } from './context.ts';

/**
 * The editor in a cell. It holds nothing of its own: every key goes into the session's entry, which
 * the formula line shows at the same time. It is made and focused at once, so that no key is lost.
 */
export class CellEditor implements ICellEditorComp {
  #field: HTMLInputElement | HTMLSelectElement = document.createElement('input');
  /** Holds the field over the coloured letters of a formula. */
  readonly #holder = document.createElement('div');
  readonly #under = document.createElement('div');
  #session: Session | undefined;
  #leave: GridContext['leave'] = () => undefined;
  #left = false;
  #ends: () => void = () => undefined;

  init(params: ICellEditorParams): void {
    const { session, leave } = params.context as GridContext;
    this.#session = session;
    this.#leave = leave;
    const { editing } = session;
    const choices = session.current().allow?.list;
    this.#field =
      choices !== undefined && editing?.mode === 'edit'
        ? choiceField(choices, editing.text)
        : textField(editing?.text ?? '');
    this.#field.className = 'cell-entry';
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
    if (this.#field instanceof HTMLSelectElement) {
      this.#field.addEventListener('change', () => {
        session.write(this.#field.value);
        this.#finish('stay');
      });
    }
  }

  /** What is written and where the caret stands goes to the session. */
  #tell(): void {
    const field = this.#field;
    if (this.#session?.editing?.from !== 'cell') return;
    if (field instanceof HTMLSelectElement) this.#session.write(field.value);
    else this.#session.write(field.value, field.selectionEnd ?? field.value.length);
  }

  /** The letters of a formula in the colours of what they stand for. */
  #colour(): void {
    const { editing, book } = this.#session ?? {};
    if (editing === undefined || book === undefined) return;
    const coloured = isFormula(editing.text) && this.#field instanceof HTMLInputElement;
    this.#field.dataset.coloured = String(coloured);
    paintTokens(this.#under, coloured ? colouredTokens(book, editing) : []);
    this.#under.scrollLeft = this.#field.scrollLeft;
  }

  /** A completion or a reference pointed at comes from the session. */
  #show(): void {
    this.#colour();
    const { editing } = this.#session ?? {};
    const field = this.#field;
    if (editing?.from !== 'cell' || field instanceof HTMLSelectElement) return;
    if (field.value === editing.text) return;
    field.value = editing.text;
    field.setSelectionRange(editing.caret, editing.caret);
  }

  getGui(): HTMLElement {
    return this.#holder;
  }

  afterGuiAttached(): void {
    this.#field.focus();
    if (this.#field instanceof HTMLInputElement) {
      const end = this.#field.value.length;
      this.#field.setSelectionRange(end, end);
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
    if (field instanceof HTMLSelectElement) return [0, 0];
    return [field.selectionStart ?? 0, field.selectionEnd ?? 0];
  }

  #finish(leave: Leave): void {
    if (this.#session?.commit() === true) this.#end(leave);
  }

  #end(leave: Leave): void {
    this.#left = true;
    this.#leave(leave);
  }
}

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

function choiceField(choices: readonly string[], text: string): HTMLSelectElement {
  const field = document.createElement('select');
  const known = choices.some((choice) => choice === text);
  for (const choice of known ? choices : [text, ...choices]) {
    field.add(new Option(choice, choice, false, choice === text));
  }
  return field;
}
