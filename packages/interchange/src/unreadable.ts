/** A file that is not taken in; the message is the whole sentence for people. */
export class Unreadable extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'Unreadable';
  }
}
