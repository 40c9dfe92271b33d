/** How a workbook of this device stands with the club. */
export type Standing =
  /** Only on this device. `says`: why it follows no more. */
  | { readonly kind: 'here'; readonly says?: string }
  /** The club has it as it is here. */
  | { readonly kind: 'inStep' }
  /** Changed here, and not sent yet. */
  | { readonly kind: 'unsent'; readonly changes: number }
  /** On its way. */
  | { readonly kind: 'sending' }
  /** Changed here and at the club, in so many places that the maker has to choose about. */
  | { readonly kind: 'meeting'; readonly places: number }
  /** The club has not been reached since then, ms since 1970; so many changes wait to be sent. */
  | { readonly kind: 'away'; readonly since: number; readonly changes: number }
  /** The club does not take it, or it cannot be brought together; it says why and what to do. */
  | { readonly kind: 'refused'; readonly says: string };

/** How all workbooks stand with the club, to be watched. */
export interface ClubState {
  /** By their ids on this device; what is not in it is only here. */
  readonly books: ReadonlyMap<string, Standing>;
  /** Since when the club has not been reached, ms since 1970; left out where it answers. */
  readonly away?: number;
  /** The club asks who this is: sign in again. */
  readonly signedOut?: true;
}

/** How a workbook stands with the club, in one sentence for its maker. */
export function standingSentence(standing: Standing): string {
  switch (standing.kind) {
    case 'here':
      return standing.says ?? 'Only on this device';
    case 'inStep':
      return 'The club has it as it is here';
    case 'unsent':
      return `${counted(standing.changes)} not sent yet`;
    case 'sending':
      return 'Sending …';
    case 'meeting':
      return `Changed here and at the club: ${standing.places === 1 ? '1 place' : `${standing.places} places`} to choose about`;
    case 'away':
      return standing.changes === 0
        ? 'The club cannot be reached'
        : `The club cannot be reached: ${counted(standing.changes)} not sent yet`;
    case 'refused':
      return standing.says;
  }
}

const counted = (changes: number): string => (changes === 1 ? '1 change' : `${changes} changes`);
