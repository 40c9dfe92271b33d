import { chooseEye, type Eye, explode, type Scene, type View } from '@kerfbook/drawing';
import { Watched } from '@kerfbook/keeping';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { useSyncExternalStore } from 'react';

/** What can be shown: one view, the furniture in 3D, or all of them beside each other. */
export type Choice = 'all' | '3d' | View;

/** What is shown of a workbook's drawing; the same beside the grid and large. */
export interface Shown {
  readonly choice: Choice;
  readonly exploded: boolean;
  readonly seasons: boolean;
  /** Where the maker turned it; left out as long as nobody did. */
  readonly eye?: Eye;
}

/** In the order of the keys that choose them. */
export const CHOICES: readonly (readonly [choice: Choice, says: string])[] = [
  ['all', 'All'],
  ['3d', '3D'],
  ['plan', 'Top'],
  ['front', 'Front'],
  ['end', 'End'],
];

const shownOf = new WeakMap<OpenWorkbook, Watched<Shown>>();

function stateOf(book: OpenWorkbook): Watched<Shown> {
  let state = shownOf.get(book);
  if (state === undefined) {
    state = new Watched<Shown>({ choice: 'all', exploded: false, seasons: false });
    shownOf.set(book, state);
  }
  return state;
}

/** What is shown of a workbook's drawing, and the way to change it. */
export function useShown(book: OpenWorkbook): readonly [Shown, (next: Shown) => void] {
  const state = stateOf(book);
  const shown = useSyncExternalStore(state.watch, () => state.value);
  return [shown, (next) => state.set(next)];
}

/** What is shown where only one view has room: the 3D view where all were asked for. */
export const oneOf = (shown: Shown): Shown =>
  shown.choice === 'all' ? { ...shown, choice: '3d' } : shown;

/** Exploded is of the 3D view alone: asked for beside a flat one, the 3D view comes. */
export function withExploded(shown: Shown, exploded: boolean): Shown {
  const choice = exploded && shown.choice !== 'all' ? '3d' : shown.choice;
  return { ...shown, exploded, choice };
}

/** What the seasons do is drawn in the view from the top, with words that a small picture has no room for. */
export function withSeasons(shown: Shown, seasons: boolean, large: boolean): Shown {
  const choice = seasons && !(large && shown.choice === 'all') ? 'plan' : shown.choice;
  return { ...shown, seasons, choice };
}

/** As the drawing stands before anybody turns it. */
export function unturned({ eye: _, ...rest }: Shown): Shown {
  return rest;
}

const homes = new WeakMap<OpenWorkbook, Map<string, Eye>>();

/**
 * The eye a drawing is looked at from at first. It is chosen once for the parts there are: while a
 * number is changed or pulled, the drawing does not turn by itself.
 */
export function homeEye(book: OpenWorkbook, scene: Scene, exploded: boolean): Eye {
  let known = homes.get(book);
  if (known === undefined) {
    known = new Map();
    homes.set(book, known);
  }
  const rows = new Set(scene.pieces.map(({ part }) => part.at.row));
  const key = `${exploded} ${[...rows].join(' ')}`;
  let eye = known.get(key);
  if (eye === undefined) {
    eye = chooseEye(exploded ? explode(scene).scene : scene);
    known.set(key, eye);
  }
  return eye;
}
