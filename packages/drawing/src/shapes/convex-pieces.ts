import type { Outline } from '../visible-face.ts';

/** Slivers thinner than this are rounding, mm. */
export const SLIVER = 1e-5;

/** A line is three numbers: what is within has a·x + b·y <= c. */
const LINE = 3;
/** No line. */
const NONE = -1;

/**
 * Convex outlines on the paper from which convex holes are taken, one after the other; what is left
 * falls into convex outlines again. All corners lie in one long list that is used again, as a step
 * of a turn makes tens of thousands.
 */
export class ConvexPieces {
  /** x and y of corners. */
  #corners: Float64Array = new Float64Array(1024);
  /** Where the next corner goes, counted in numbers. */
  #top = 0;
  /** Where the corners of each piece begin and end. */
  #from: Int32Array = new Int32Array(64);
  #to: Int32Array = new Int32Array(64);
  #count = 0;
  /** The lines around all holes noted, */
  #lines: Float64Array = new Float64Array(96);
  #lineCount = 0;
  /** where those of each begin, and how many holes there are. */
  #holes: Int32Array = new Int32Array(64);
  #holeCount = 0;
  /** Those of the lines of the hole at hand that go through the piece at hand, where they begin in the list. */
  #through: Int32Array = new Int32Array(32);
  #throughCount = 0;
  /** What of a piece lies in the hole, and by which of its lines each side of that was cut; as it was, and as it is. */
  #core: Float64Array = new Float64Array(128);
  #coreBy: Int32Array = new Int32Array(64);
  #next: Float64Array = new Float64Array(128);
  #nextBy: Int32Array = new Int32Array(64);
  #coreCount = 0;

  /** Begins with one piece. */
  begin(corners: Float64Array, count: number): void {
    this.#top = 0;
    this.#count = 0;
    this.#lineCount = 0;
    this.#holeCount = 0;
    this.#makeRoom(count);
    for (let i = 0; i < 2 * count; i++) this.#corners[i] = corners[i] as number;
    this.#top = 2 * count;
    this.#addPiece(0);
  }

  /** Begins with another hole; the one before is forgotten unless it was kept. */
  beginHole(): void {
    this.#lineCount = this.#holes[this.#holeCount] as number;
  }

  /** Adds a line that bounds the hole. */
  addLine(a: number, b: number, c: number): void {
    if (LINE * (this.#lineCount + 1) > this.#lines.length) this.#lines = doubled(this.#lines);
    const at = LINE * this.#lineCount++;
    this.#lines[at] = a;
    this.#lines[at + 1] = b;
    this.#lines[at + 2] = c;
  }

  /** Keeps the hole until all are taken. False when no line bounds it: then there is nothing outside. */
  keepHole(): boolean {
    if (this.#lineCount === this.#holes[this.#holeCount]) return false;
    if (this.#holeCount + 2 > this.#holes.length) this.#holes = longer(this.#holes);
    this.#holes[++this.#holeCount] = this.#lineCount;
    return true;
  }

  /** Takes the holes kept out of all pieces, in their order. True when nothing is left. */
  takeHoles(): boolean {
    for (let hole = 0; hole < this.#holeCount; hole++) {
      this.#take(LINE * (this.#holes[hole] as number), LINE * (this.#holes[hole + 1] as number));
      if (this.#count === 0) return true;
    }
    return false;
  }

  #take(first: number, last: number): void {
    // From the last one on: what is left of a piece goes behind the others.
    for (let piece = this.#count - 1; piece >= 0; piece--) {
      if (!this.#reaches(piece, first, last) || !this.#findCore(piece)) continue;
      this.#cutAway(piece);
      this.#count--;
      this.#from[piece] = this.#from[this.#count] as number;
      this.#to[piece] = this.#to[this.#count] as number;
    }
  }

  /** All pieces. */
  outlines(): Outline[] {
    const outlines: Outline[] = [];
    for (let piece = 0; piece < this.#count; piece++) {
      const from = this.#from[piece] as number;
      const count = ((this.#to[piece] as number) - from) / 2;
      const outline = new Array<[number, number]>(count);
      for (let i = 0; i < count; i++) {
        outline[i] = [
          this.#corners[from + 2 * i] as number,
          this.#corners[from + 2 * i + 1] as number,
        ];
      }
      outlines.push(outline);
    }
    return outlines;
  }

  /** False only when a line of the hole has the whole piece outside: most, cheaply. Finds the lines that go through it. */
  #reaches(piece: number, first: number, last: number): boolean {
    const corners = this.#corners;
    const lines = this.#lines;
    const from = this.#from[piece] as number;
    const to = this.#to[piece] as number;
    if ((last - first) / LINE > this.#through.length) {
      this.#through = new Int32Array(2 * (last - first));
    }
    this.#throughCount = 0;
    for (let line = first; line < last; line += LINE) {
      const a = lines[line] as number;
      const b = lines[line + 1] as number;
      const c = lines[line + 2] as number;
      let least = Infinity;
      let most = -Infinity;
      for (let at = from; at < to; at += 2) {
        const beyond = a * (corners[at] as number) + b * (corners[at + 1] as number) - c;
        if (beyond < least) least = beyond;
        if (beyond > most) most = beyond;
      }
      if (least >= -SLIVER) return false;
      if (most > SLIVER) this.#through[this.#throughCount++] = line;
    }
    return true;
  }

  /** What of a piece lies in the hole, with the lines that cut it there; false where nothing does. */
  #findCore(piece: number): boolean {
    const from = this.#from[piece] as number;
    this.#coreCount = ((this.#to[piece] as number) - from) / 2;
    // Each line of the hole can add a corner.
    this.#makeCoreRoom(this.#coreCount + this.#throughCount + 1);
    for (let i = 0; i < this.#coreCount; i++) {
      this.#core[2 * i] = this.#corners[from + 2 * i] as number;
      this.#core[2 * i + 1] = this.#corners[from + 2 * i + 1] as number;
      this.#coreBy[i] = NONE;
    }
    for (let i = 0; i < this.#throughCount; i++) {
      const line = this.#through[i] as number;
      const a = this.#lines[line] as number;
      const b = this.#lines[line + 1] as number;
      const c = this.#lines[line + 2] as number;
      const core = this.#core;
      const end = 2 * this.#coreCount;
      let least = Infinity;
      let most = -Infinity;
      for (let at = 0; at < end; at += 2) {
        const beyond = a * (core[at] as number) + b * (core[at + 1] as number) - c;
        if (beyond < least) least = beyond;
        if (beyond > most) most = beyond;
      }
      if (least >= -SLIVER) return false;
      if (most <= SLIVER) continue;
      this.#cutCore(line);
      if (this.#coreCount < 3) return false;
    }
    return true;
  }

  #cutCore(line: number): void {
    const a = this.#lines[line] as number;
    const b = this.#lines[line + 1] as number;
    const c = this.#lines[line + 2] as number;
    const core = this.#core;
    const next = this.#next;
    const coreBy = this.#coreBy;
    const nextBy = this.#nextBy;
    const count = this.#coreCount;
    let kept = 0;
    let x = core[0] as number;
    let y = core[1] as number;
    let is = a * x + b * y - c;
    for (let i = 0; i < count; i++) {
      const after = i + 1 === count ? 0 : i + 1;
      const afterX = core[2 * after] as number;
      const afterY = core[2 * after + 1] as number;
      const will = a * afterX + b * afterY - c;
      if (is <= 0) {
        next[2 * kept] = x;
        next[2 * kept + 1] = y;
        // From a corner on the line outwards the line itself is the side.
        nextBy[kept++] = is === 0 && will > 0 ? line : (coreBy[i] as number);
      }
      if ((is < 0 && will > 0) || (is > 0 && will < 0)) {
        const share = is / (is - will);
        next[2 * kept] = x + share * (afterX - x);
        next[2 * kept + 1] = y + share * (afterY - y);
        nextBy[kept++] = is < 0 ? line : (coreBy[i] as number);
      }
      x = afterX;
      y = afterY;
      is = will;
    }
    this.#core = next;
    this.#next = core;
    this.#coreBy = nextBy;
    this.#nextBy = coreBy;
    this.#coreCount = kept;
  }

  /** Adds what of a piece lies outside each line in turn that bounds its core: the others would only cut it up. */
  #cutAway(piece: number): void {
    let from = this.#from[piece] as number;
    let to = this.#to[piece] as number;
    for (let i = 0; i < this.#throughCount; i++) {
      const line = this.#through[i] as number;
      if (!this.#bounds(line)) continue;
      const outside = this.#top;
      if (this.#cut(from, to, line, -1)) this.#addPiece(outside);
      const inside = this.#top;
      if (!this.#cut(from, to, line, 1)) return;
      from = inside;
      to = this.#top;
    }
  }

  #bounds(line: number): boolean {
    for (let i = 0; i < this.#coreCount; i++) if (this.#coreBy[i] === line) return true;
    return false;
  }

  /** Writes down the part of an outline within a line, or outside it by -1; not when it is no more than a sliver. */
  #cut(from: number, to: number, line: number, side: 1 | -1): boolean {
    this.#makeRoom((to - from) / 2 + 2);
    const corners = this.#corners;
    const a = side * (this.#lines[line] as number);
    const b = side * (this.#lines[line + 1] as number);
    const c = side * (this.#lines[line + 2] as number);
    let least = Infinity;
    for (let i = from; i < to; i += 2) {
      const beyond = a * (corners[i] as number) + b * (corners[i + 1] as number) - c;
      if (beyond < least) least = beyond;
    }
    if (least >= -SLIVER) return false;
    const start = this.#top;
    let at = start;
    let x0 = corners[to - 2] as number;
    let y0 = corners[to - 1] as number;
    let was = a * x0 + b * y0 - c;
    for (let i = from; i < to; i += 2) {
      const x = corners[i] as number;
      const y = corners[i + 1] as number;
      const is = a * x + b * y - c;
      if ((was < 0 && is > 0) || (was > 0 && is < 0)) {
        const share = was / (was - is);
        corners[at++] = x0 + share * (x - x0);
        corners[at++] = y0 + share * (y - y0);
      }
      if (is <= 0) {
        corners[at++] = x;
        corners[at++] = y;
      }
      x0 = x;
      y0 = y;
      was = is;
    }
    if (at - start < 6) return false;
    this.#top = at;
    return true;
  }

  /** The corners written down last are a piece. */
  #addPiece(from: number): void {
    if (this.#count === this.#from.length) {
      this.#from = longer(this.#from);
      this.#to = longer(this.#to);
    }
    this.#from[this.#count] = from;
    this.#to[this.#count] = this.#top;
    this.#count++;
  }

  #makeRoom(corners: number): void {
    while (this.#top + 2 * corners > this.#corners.length) this.#corners = doubled(this.#corners);
  }

  #makeCoreRoom(corners: number): void {
    if (corners <= this.#coreBy.length) return;
    this.#core = new Float64Array(4 * corners);
    this.#next = new Float64Array(4 * corners);
    this.#coreBy = new Int32Array(2 * corners);
    this.#nextBy = new Int32Array(2 * corners);
  }
}

function doubled(list: Float64Array): Float64Array {
  const more = new Float64Array(2 * list.length);
  more.set(list);
  return more;
}

function longer(list: Int32Array): Int32Array {
  const more = new Int32Array(2 * list.length);
  more.set(list);
  return more;
}
