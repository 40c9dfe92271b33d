/** A text deflated (RFC 1951) and in base64; nothing where the browser cannot. */
export async function squeezed(text: string): Promise<string | undefined> {
  if (typeof CompressionStream === 'undefined') return undefined;
  const bytes = await through(new TextEncoder().encode(text), new CompressionStream('deflate-raw'));
  const letters: string[] = [];
  for (let at = 0; at < bytes.length; at += PIECE) {
    letters.push(String.fromCharCode(...bytes.subarray(at, at + PIECE)));
  }
  return btoa(letters.join(''));
}

/** A call takes only so many arguments. */
const PIECE = 8_192;

/** The text again, at most so many bytes of it; nothing where it is none, or longer. */
export async function unsqueezed(base64: string, most: number): Promise<string | undefined> {
  if (typeof DecompressionStream === 'undefined') return undefined;
  try {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const text = await through(bytes, new DecompressionStream('deflate-raw'), most);
    return new TextDecoder('utf-8', { fatal: true }).decode(text);
  } catch {
    return undefined;
  }
}

async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
  most = Number.POSITIVE_INFINITY,
): Promise<Uint8Array> {
  const writer = stream.writable.getWriter();
  // What goes wrong is told by reading, too.
  writer.write(bytes).catch(() => undefined);
  writer.close().catch(() => undefined);
  const reader = stream.readable.getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
    pieces.push(piece.value);
    length += piece.value.length;
    // A few letters can stand for a text that no device has room for.
    if (length > most) {
      await reader.cancel().catch(() => undefined);
      throw new RangeError('longer than a workbook may be');
    }
  }
  const all = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
