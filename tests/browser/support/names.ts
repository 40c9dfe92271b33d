import type { Locator } from 'playwright-core';

/** Choices within a list are told apart by the list they are in. */
const ROLES =
  'button|link|textbox|searchbox|combobox|checkbox|radio|spinbutton|slider|menuitem|listbox|switch|tab';

/** Controls of a region that who hears them, without seeing their rows, cannot tell what they are about. */
export interface SoundAlike {
  /** How many there are of all that are enabled. */
  readonly controls: number;
  readonly nameless: readonly string[];
  /** Those that have the same name as one before. */
  readonly again: readonly string[];
}

/** Looks at the enabled controls of a region as a screen reader is told of them, each `role "name"`. */
export async function soundAlike(region: Locator): Promise<SoundAlike> {
  const tree = await region.ariaSnapshot();
  const line = new RegExp(`^\\s*- '?((?:${ROLES})\\b(?: "(?:[^"\\\\]|\\\\.)*")?)(.*)$`);
  const found = tree.split('\n').flatMap((one) => {
    const [, control, more = ''] = line.exec(one) ?? [];
    return control === undefined || more.includes('[disabled]') ? [] : [control];
  });
  return {
    controls: found.length,
    nameless: found.filter((one) => !one.includes('"')),
    again: found.filter((one, i) => found.indexOf(one) !== i),
  };
}
