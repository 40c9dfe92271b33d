/** A command that was not carried out; the message is for the person at the keyboard. */
export class CommandRefused extends Error {
  override readonly name = 'CommandRefused';
}
