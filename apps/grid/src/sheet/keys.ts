import type { Leave } from './context.ts';

export type KeyAction =
  | { readonly do: 'move'; readonly by: Leave }
  | { readonly do: 'page'; readonly by: 1 | -1 }
  | { readonly do: 'first' | 'last'; readonly sheet: boolean }
  | { readonly do: 'edit' | 'clear' | 'type' };

interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const MOVES: Readonly<Record<string, Leave>> = {
  ArrowDown: 'down',
  ArrowUp: 'up',
  ArrowLeft: 'left',
  ArrowRight: 'right',
};

/** What a key does in the grid while nothing is being written; `undefined`: not ours. */
export function keyAction(pressed: Pressed): KeyAction | undefined {
  const { key, shiftKey, altKey } = pressed;
  const mod = pressed.ctrlKey || pressed.metaKey;
  if (key === 'Home') return { do: 'first', sheet: mod };
  if (key === 'End') return { do: 'last', sheet: mod };
  if (altKey && key === 'ArrowDown') return { do: 'edit' };
  if (mod || altKey) return undefined;
  const move = MOVES[key];
  if (move !== undefined) return { do: 'move', by: move };
  if (key === 'Tab') return { do: 'move', by: shiftKey ? 'previous' : 'next' };
  if (key === 'PageDown') return { do: 'page', by: 1 };
  if (key === 'PageUp') return { do: 'page', by: -1 };
  if (key === 'F2' || key === 'Enter') return { do: 'edit' };
  if (key === 'Delete' || key === 'Backspace') return { do: 'clear' };
  // `Process` and `Dead` are an input method's first key: it must reach the editor.
  if (key.length === 1 || key === 'Process' || key === 'Dead') return { do: 'type' };
  return undefined;
}
