/** What a row may be made of. */
export type Value = null | string | number | bigint | Buffer;

const LARGEST = 2n ** 63n;

/**
 * What goes into a database passes here, whichever it is. SQLite's binding ends the whole process when it is handed true or
 * false, makes no number of NaN, and drops what follows a letter 0; PostgreSQL's writes almost anything as some text. So
 * both take null, text, finite numbers, whole numbers of 64 bits and bytes, and nothing else.
 * @throws TypeError saying what was handed in
 */
export function bound(value: unknown): Value {
  switch (typeof value) {
    case 'string':
      return text(value);
    case 'number':
      return number(value);
    case 'bigint':
      if (value >= -LARGEST && value < LARGEST) return value;
      throw new TypeError(`A database takes whole numbers of 64 bits, not ${value}.`);
    case 'object':
      if (value === null) return null;
      // Asked of the value itself: what only says that it is one is none.
      if (
        ArrayBuffer.isView(value) &&
        Object.prototype.toString.call(value) === '[object Uint8Array]'
      )
        return bytes(value as Uint8Array);
      break;
    default:
  }
  throw new TypeError(
    `A database takes null, text, numbers and bytes, not ${kindOf(value)}. Write true and false as 1 and 0, times in ms, objects as JSON.`,
  );
}

function text(value: string): string {
  // SQLite would end the text at the first, PostgreSQL refuses it; of half a letter both would keep another.
  if (value.includes('\0') || !(value as unknown as { isWellFormed(): boolean }).isWellFormed()) {
    throw new TypeError(
      'A database takes text without the letter 0 and without halves of letters (lone surrogates).',
    );
  }
  return value;
}

function number(value: number): Value {
  if (!Number.isFinite(value)) {
    throw new TypeError(`A database takes finite numbers, not ${value}.`);
  }
  // SQLite's binding hands over every number as one with a point, and a whole one would then be none in an expression.
  return Number.isSafeInteger(value) ? BigInt(value) : value;
}

function bytes(value: Uint8Array): Buffer {
  return Buffer.from(value.buffer, value.byteOffset, value.byteLength);
}

function kindOf(value: unknown): string {
  if (typeof value !== 'object') return typeof value === 'boolean' ? String(value) : typeof value;
  return Object.prototype.toString.call(value).slice('[object '.length, -1);
}

/**
 * A whole number as it is read.
 * @throws RangeError where JavaScript has no such number
 */
export function whole(value: bigint | string): number {
  const read = Number(value);
  if (Number.isSafeInteger(read)) return read;
  throw new RangeError(
    `The database holds the number ${value}, which is larger than 2^53 and cannot be read without loss.`,
  );
}
