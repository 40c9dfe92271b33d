/** Whether the workbook at hand is safe on this device. Each state has one sentence. */
export type SaveState =
  | { readonly kind: 'untouched' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'saved'; readonly at: number }
  | { readonly kind: 'notSaved'; readonly why: string }
  | { readonly kind: 'reading' };

/** How safe a workbook is, in one sentence for its maker. */
export function saveSentence(state: SaveState): string {
  switch (state.kind) {
    case 'untouched':
      return 'Nothing to save yet';
    case 'saving':
      return 'Saving …';
    case 'saved':
      return `Saved ${timeOfDay(state.at)}`;
    case 'notSaved':
      return `Not saved: ${state.why}`;
    case 'reading':
      return 'Open elsewhere: view only';
  }
}

/** `10:42`, on the clock of the device. */
export function timeOfDay(at: number): string {
  const date = new Date(at);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}
