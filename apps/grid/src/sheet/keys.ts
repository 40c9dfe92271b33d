import type { Leave } from './context.ts';

export type Direction = 'up' | 'down' | 'left' | 'right';

export type KeyAction =
  | { readonly do: 'move'; readonly by: Leave }
  /** To the edge of what is filled (G04). */
  | { readonly do: 'jump'; readonly by: Direction; readonly extend: boolean }
  | { readonly do: 'extend'; readonly by: Direction }
  | { readonly do: 'page'; readonly by: 1 | -1; readonly extend: boolean }
  | { readonly do: 'first' | 'last'; readonly sheet: boolean; readonly extend: boolean }
  | { readonly do: 'fill'; readonly by: 'down' | 'right' }
  | { readonly do: 'insert' | 'remove' }
  /** The current cell's number by a step, where it has a range. */
  | { readonly do: 'pull'; readonly by: 1 | -1; readonly wide: boolean }
  /** The same by the keys that browsers zoom with: only where whole rows or columns are selected. */
  | { readonly do: 'insertWhole' | 'removeWhole' }
  | {
      readonly do:
        | 'edit'
        | 'clear'
        | 'type'
        | 'region'
        | 'rows'
        | 'columns'
        | 'menu'
        | 'formulas'
        | 'bold'
        | 'italic'
        | 'sum'
        | 'today'
        | 'narrow';
    };

interface Pressed {
  readonly key: string;
  /** Which key it is on the board, whatever it writes. */
  readonly code?: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const ARROWS: Readonly<Record<string, Direction>> = {
  ArrowDown: 'down',
  ArrowUp: 'up',
  ArrowLeft: 'left',
  ArrowRight: 'right',
};

/**
 * What a key does in the grid while nothing is being written; `undefined`: not ours.
 * @param isFillingIn whether a run of Tabs is filling a line in, which Enter ends
 */
export function keyAction(pressed: Pressed, isFillingIn: boolean): KeyAction | undefined {
  const { key, shiftKey, altKey } = pressed;
  const mod = pressed.ctrlKey || pressed.metaKey;
  const arrow = ARROWS[key];
  if (altKey) return altAction(pressed);
  if (arrow !== undefined) {
    if (mod) return { do: 'jump', by: arrow, extend: shiftKey };
    return shiftKey ? { do: 'extend', by: arrow } : { do: 'move', by: arrow };
  }
  switch (key) {
    case 'Home':
      return { do: 'first', sheet: mod, extend: shiftKey };
    case 'End':
      return { do: 'last', sheet: mod, extend: shiftKey };
    case ' ':
      if (mod) return { do: 'columns' };
      return shiftKey ? { do: 'rows' } : { do: 'type' };
    case 'ContextMenu':
      return { do: 'menu' };
  }
  return mod ? modAction(key) : plainAction(key, shiftKey, isFillingIn);
}

function altAction({ key, code, shiftKey: wide }: Pressed): KeyAction | undefined {
  // Where Alt writes letters of its own, the key with = writes another one.
  if (key === '=' || code === 'Equal') return { do: 'sum' };
  if (key === 'ArrowUp') return { do: 'pull', by: 1, wide };
  if (key === 'ArrowDown') return { do: 'pull', by: -1, wide };
  if (key === 'Insert') return { do: 'insert' };
  return key === 'Delete' ? { do: 'remove' } : undefined;
}

function modAction(key: string): KeyAction | undefined {
  switch (key.toLowerCase()) {
    case 'a':
      return { do: 'region' };
    case 'd':
      return { do: 'fill', by: 'down' };
    case 'b':
      return { do: 'bold' };
    case 'i':
      return { do: 'italic' };
    case '`':
      return { do: 'formulas' };
    case ';':
      return { do: 'today' };
    case '+':
    case '=':
      return { do: 'insertWhole' };
    case '-':
    case '_':
      return { do: 'removeWhole' };
    case 'r':
      return { do: 'fill', by: 'right' };
    default:
      return undefined;
  }
}

function plainAction(key: string, shiftKey: boolean, isFillingIn: boolean): KeyAction | undefined {
  switch (key) {
    case 'Tab':
      return { do: 'move', by: shiftKey ? 'previous' : 'next' };
    case 'PageDown':
      return { do: 'page', by: 1, extend: shiftKey };
    case 'PageUp':
      return { do: 'page', by: -1, extend: shiftKey };
    case 'Enter':
      if (shiftKey) return { do: 'move', by: 'up' };
      return isFillingIn ? { do: 'move', by: 'down' } : { do: 'edit' };
    case 'F2':
      return { do: 'edit' };
    case 'F10':
      return shiftKey ? { do: 'menu' } : undefined;
    case 'Escape':
      return { do: 'narrow' };
    case 'Delete':
    case 'Backspace':
      return { do: 'clear' };
    default:
      // `Process` and `Dead` are an input method's first key: it must reach the editor.
      return key.length === 1 || key === 'Process' || key === 'Dead' ? { do: 'type' } : undefined;
  }
}
