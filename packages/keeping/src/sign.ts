/**
 * SHA-256 of a text in UTF-8, in hexadecimal digits (FIPS 180-4). The browser's own is there over https only, and
 * workbooks are kept on any page.
 */
export function signOf(text: string): string {
  const bytes = new TextEncoder().encode(text);
  const length = bytes.length;
  const padded = new Uint8Array((((length + 8) >> 6) + 1) << 6);
  padded.set(bytes);
  padded[length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(length / 0x20000000));
  view.setUint32(padded.length - 4, length << 3);
  const hash = Int32Array.from(START);
  const words = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) block(view, at, words, hash);
  return [...hash].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** The first `count` prime numbers. */
function primes(count: number): readonly number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n += 1) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}

/** The first 32 bits of what stands behind the point. */
const behindPoint = (number: number): number => ((number - Math.floor(number)) * 2 ** 32) | 0;

const START = primes(8).map((prime) => behindPoint(Math.sqrt(prime)));
const ROUNDS = Int32Array.from(primes(64).map((prime) => behindPoint(Math.cbrt(prime))));

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

function block(view: DataView, at: number, words: Int32Array, hash: Int32Array): void {
  const word = (i: number): number => words[i] ?? 0;
  for (let i = 0; i < 64; i += 1) {
    if (i < 16) words[i] = view.getInt32(at + 4 * i);
    else {
      const [far, near] = [word(i - 15), word(i - 2)];
      const one = turn(far, 7) ^ turn(far, 18) ^ (far >>> 3);
      const other = turn(near, 17) ^ turn(near, 19) ^ (near >>> 10);
      words[i] = word(i - 16) + one + word(i - 7) + other;
    }
  }
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let i = 0; i < 64; i += 1) {
    const chosen = (e & f) ^ (~e & g);
    const most = (a & b) ^ (a & c) ^ (b & c);
    const up = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const down = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const first = (h + up + chosen + (ROUNDS[i] ?? 0) + word(i)) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + down + most) | 0];
  }
  for (const [i, one] of [a, b, c, d, e, f, g, h].entries()) hash[i] = ((hash[i] ?? 0) + one) | 0;
}
