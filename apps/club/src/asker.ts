/** Who asks. */
export interface Asker {
  readonly id: string;
  readonly name: string;
  readonly role: 'member' | 'keeper';
  /** The session he asks through; none with a token. */
  readonly session?: string;
}
