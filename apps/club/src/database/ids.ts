import { createHash, randomBytes } from 'node:crypto';

/** In the order of their bytes, and none that a command line or a selection by double click would trip over. */
const LETTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz';
/** As many letters as 128 bits need: 62^22 > 2^128. */
const LENGTH = 22;
const BASE = BigInt(LETTERS.length);

/**
 * A new id: the moment in ms (48 bits), then 80 bits of chance, as 22 letters and digits. Ids sort bytewise by the moment
 * they were made at, and none can be guessed from another.
 */
export function newId(now: number = Date.now()): string {
  const moment = Buffer.alloc(6);
  moment.writeUIntBE(now, 0, 6);
  let rest = BigInt(`0x${Buffer.concat([moment, randomBytes(10)]).toString('hex')}`);
  let id = '';
  for (let place = 0; place < LENGTH; place += 1) {
    id = LETTERS.charAt(Number(rest % BASE)) + id;
    rest /= BASE;
  }
  return id;
}

/** The sign by which bytes or a text (in UTF-8) are known: SHA-256 in hexadecimal digits. */
export function signOf(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}
