import { Inflate } from 'fflate';
import { Unreadable } from '../unreadable.ts';
import { crc32 } from './crc.ts';

const MB = 1024 * 1024;

/** What an archive may hold, counted while it is unpacked: what its head says is not believed. */
export const ARCHIVE_LIMITS = {
  /** Of the file itself. */
  file: 40 * MB,
  entries: 2_000,
  /** Of one entry, unpacked. */
  entry: 40 * MB,
  /** Of all that is unpacked. */
  total: 64 * MB,
  /** Unpacked bytes for each packed one, of what is larger than a megabyte. */
  ratio: 300,
} as const;

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly crc: number;
  readonly at: number;
}

/** A zip archive (PKWARE APPNOTE 6.3.10, without its 64-bit forms) of which parts are unpacked when they are asked for. */
export class Archive {
  readonly #bytes: Uint8Array;
  readonly #entries = new Map<string, Entry>();
  #unpacked = 0;

  /** @throws Unreadable where it is none, is locked, or its list of entries cannot be right */
  constructor(bytes: Uint8Array) {
    if (bytes.length > ARCHIVE_LIMITS.file) {
      throw new Unreadable(
        `The file has ${Math.ceil(bytes.length / MB)} MB; ${ARCHIVE_LIMITS.file / MB} MB is the most that is read.`,
      );
    }
    this.#bytes = bytes;
    for (const entry of entriesOf(bytes)) {
      if (this.#entries.has(entry.name)) {
        throw new Unreadable(
          `The file has two parts called "${shown(entry.name)}", and it cannot be told which is meant.`,
        );
      }
      this.#entries.set(entry.name, entry);
    }
    apart([...this.#entries.values()]);
  }

  /** The names of its parts. */
  get names(): readonly string[] {
    return [...this.#entries.keys()];
  }

  /** Whether there is such a part. */
  has(name: string): boolean {
    return this.#entries.has(name);
  }

  /**
   * A part, unpacked; undefined where there is none.
   * @throws Unreadable where it is damaged or too large
   */
  bytes(name: string): Uint8Array | undefined {
    const entry = this.#entries.get(name);
    return entry === undefined ? undefined : this.#unpack(entry);
  }

  #unpack(entry: Entry): Uint8Array {
    const data = dataOf(this.#bytes, entry);
    const room = Math.min(ARCHIVE_LIMITS.entry, ARCHIVE_LIMITS.total - this.#unpacked);
    const most = Math.min(room, Math.max(MB, entry.packed * ARCHIVE_LIMITS.ratio));
    const tooLarge = (): Unreadable =>
      new Unreadable(
        `The part "${shown(entry.name)}" unpacks to more than a spreadsheet's parts have; the file is not opened.`,
      );
    // What says so itself need not be unpacked first.
    if (entry.unpacked > most) throw tooLarge();
    const whole = entry.method === 0 ? data : inflated(data, entry, most, tooLarge);
    if (whole.length > most) throw tooLarge();
    if (whole.length !== entry.unpacked || crc32(whole) !== entry.crc) throw damaged(entry.name);
    this.#unpacked += whole.length;
    return whole;
  }
}

const PIECE = 8 * 1024;

function inflated(
  data: Uint8Array,
  entry: Entry,
  most: number,
  tooLarge: () => Unreadable,
): Uint8Array {
  const pieces: Uint8Array[] = [];
  let length = 0;
  let isWhole = false;
  const inflate = new Inflate((piece, isLast) => {
    length += piece.length;
    if (length > most) throw tooLarge();
    pieces.push(piece);
    isWhole ||= isLast;
  });
  try {
    // A small piece unpacks to a thousand times as much at the most.
    for (let at = 0; at < data.length; at += PIECE) {
      inflate.push(data.subarray(at, at + PIECE), at + PIECE >= data.length);
    }
  } catch (error) {
    if (error instanceof Unreadable) throw error;
    throw damaged(entry.name);
  }
  if (!isWhole) throw damaged(entry.name);
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

const damaged = (name: string): Unreadable =>
  new Unreadable(
    `The file is damaged: its part "${shown(name)}" cannot be unpacked. Ask for it again, or save it anew.`,
  );

const NO_ARCHIVE = 'The file is damaged or no spreadsheet: its list of parts cannot be read.';
const END = 0x06054b50;
const END_SIZE = 22;
const LONGEST_REMARK = 0xffff;
const LISTED = 0x02014b50;
const LISTED_SIZE = 46;
const LOCAL = 0x04034b50;
const LOCAL_SIZE = 30;
const LOCKED = 1;

function entriesOf(bytes: Uint8Array): readonly Entry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOf(view);
  if (end === undefined) throw new Unreadable(NO_ARCHIVE);
  const count = view.getUint16(end + 10, true);
  const size = view.getUint32(end + 12, true);
  const first = view.getUint32(end + 16, true);
  if (count > ARCHIVE_LIMITS.entries) {
    throw new Unreadable(
      `The file has ${count} parts; ${ARCHIVE_LIMITS.entries} is the most that is read.`,
    );
  }
  if (first + size > end) throw new Unreadable(NO_ARCHIVE);
  const entries: Entry[] = [];
  let at = first;
  for (let number = 0; number < count; number += 1) {
    if (at + LISTED_SIZE > end || view.getUint32(at, true) !== LISTED)
      throw new Unreadable(NO_ARCHIVE);
    const flags = view.getUint16(at + 8, true);
    const nameLength = view.getUint16(at + 28, true);
    const beside = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    const nameEnd = at + LISTED_SIZE + nameLength;
    if (nameEnd + beside > end) throw new Unreadable(NO_ARCHIVE);
    const name = nameOf(bytes.subarray(at + LISTED_SIZE, nameEnd));
    const method = view.getUint16(at + 10, true);
    if ((flags & LOCKED) !== 0) {
      throw new Unreadable(
        'The file is locked with a password. Save it without one, and open it then.',
      );
    }
    if (method !== 0 && method !== 8) throw damaged(name);
    if (!name.endsWith('/')) {
      entries.push({
        name,
        method,
        crc: view.getUint32(at + 16, true),
        packed: view.getUint32(at + 20, true),
        unpacked: view.getUint32(at + 24, true),
        at: view.getUint32(at + 42, true),
      });
    }
    at = nameEnd + beside;
  }
  return entries;
}

/** Where the list's end stands: the last place that looks like one, and whose remark ends with the file. */
function endOf(view: DataView): number | undefined {
  const last = view.byteLength - END_SIZE;
  for (let at = last; at >= Math.max(0, last - LONGEST_REMARK); at -= 1) {
    if (view.getUint32(at, true) !== END) continue;
    if (at + END_SIZE + view.getUint16(at + 20, true) === view.byteLength) return at;
  }
  return undefined;
}

/** Nothing is ever written where a name says; one that leads out of the file was made to. */
function nameOf(bytes: Uint8Array): string {
  const name = new TextDecoder().decode(bytes).replaceAll('\\', '/');
  const parts = name.split('/');
  if (
    name.startsWith('/') ||
    /^[A-Za-z]:/.test(name) ||
    parts.includes('..') ||
    name.includes('\0')
  ) {
    throw new Unreadable(
      `The file's part "${shown(name)}" leads out of the file; the file is not opened.`,
    );
  }
  return name;
}

/** Entries that share bytes would unpack to far more than the file is large. */
function apart(entries: readonly Entry[]): void {
  const inOrder = [...entries].sort((a, b) => a.at - b.at);
  for (const [number, { at, packed, name }] of inOrder.entries()) {
    const next = inOrder[number + 1];
    if (next !== undefined && at + LOCAL_SIZE + packed > next.at) throw damaged(name);
  }
}

function dataOf(bytes: Uint8Array, { at, packed, name }: Entry): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (at + LOCAL_SIZE > bytes.length || view.getUint32(at, true) !== LOCAL) throw damaged(name);
  const begin = at + LOCAL_SIZE + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  if (begin + packed > bytes.length) throw damaged(name);
  return bytes.subarray(begin, begin + packed);
}

const LONGEST_SHOWN = 60;
// A name of anyone's making goes into a sentence: what cannot be seen is left out of it.
const shown = (name: string): string => name.replaceAll(/[\p{C}"]/gu, '').slice(0, LONGEST_SHOWN);
