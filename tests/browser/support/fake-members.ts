/** Somebody in the club of a test. */
export interface Member {
  readonly id: string;
  readonly name: string;
  readonly role: 'member' | 'keeper';
}

/** Who is in the club; everyone's password is the same made-up one. */
export const MEMBERS = {
  ada: { id: 'member-ada', name: 'Ada', role: 'member' },
  ben: { id: 'member-ben', name: 'Ben', role: 'member' },
  kim: { id: 'member-kim', name: 'Kim', role: 'keeper' },
} as const satisfies Readonly<Record<string, Member>>;
