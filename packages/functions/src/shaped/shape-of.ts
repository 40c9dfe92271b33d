import {
  type Cut,
  type EdgeName,
  endAngles,
  type Face,
  type Placement,
  type Shape,
  type Triple,
  turnedBy,
} from '@kerfbook/solids';
import {
  type EndCut,
  outlineWord,
  type PlacedPart,
  SHAPE_SAYS,
  type ShapeColumn,
  type ShapeTrouble,
  type Side,
  type SideOrWay,
} from '@kerfbook/wood';
import { type FormedPart, outerSides, outwardOf, placementOf } from './standing.ts';
import { faceTowards, sideOf, TURNED } from './turned.ts';

/** A piece as it is to be made. */
export interface PieceShape {
  /** In its own frame. */
  readonly shape: Shape;
  /** The head under which each cut is said. */
  readonly columns: readonly ShapeColumn[];
  /** How the ends are sawn, as far as they are not square. */
  readonly ends: Readonly<Partial<Record<'start' | 'end', EndSetting>>>;
  /** What cannot be done as it is said, and is left away. */
  readonly wrong: readonly ShapeTrouble[];
}

/** The settings of the saw for one end, in degrees, and the sides that stay longer. */
export interface EndSetting {
  /** Of the miter gauge: above 0 the front of the piece is longer. */
  readonly mitre: number;
  /** Of the blade: above 0 the bottom of the piece is longer. */
  readonly bevel: number;
}

/** Lies flat along the furniture and by nothing: how a part without a place is shaped. */
const NOWHERE: PlacedPart = {
  turn: 'LWT',
  lines: [
    { start: 0, step: 0, count: 1 },
    { start: 0, step: 0, count: 1 },
    { start: 0, step: 0, count: 1 },
  ],
  together: false,
};

/** The shape of one piece of a part, in its own frame; which faces are meant depends on where it stands. */
export function shapeOf(part: FormedPart, placing: PlacedPart = NOWHERE, copy = 0): PieceShape {
  return new Shaper(part, placing, copy).shape();
}

class Shaper {
  readonly #part: FormedPart;
  readonly #placing: PlacedPart;
  readonly #copy: number;
  readonly #outward: readonly [number, number];
  readonly #cuts: Cut[] = [];
  readonly #columns: ShapeColumn[] = [];
  readonly #wrong: ShapeTrouble[] = [];
  readonly #ends: Partial<Record<'start' | 'end', EndSetting>> = {};

  constructor(part: FormedPart, placing: PlacedPart, copy: number) {
    this.#part = part;
    this.#placing = placing;
    this.#copy = copy;
    this.#outward = outwardOf(part, placing, copy);
  }

  shape(): PieceShape {
    this.#checkLean();
    this.#endCuts();
    this.#taper();
    this.#arch();
    this.#edge();
    const blank = this.#blank();
    return {
      shape: { blank, ...(this.#cuts.length === 0 ? {} : { cuts: this.#cuts }) },
      columns: this.#columns,
      ends: this.#ends,
      wrong: this.#wrong,
    };
  }

  #add(column: ShapeColumn, cut: Cut): void {
    this.#cuts.push(cut);
    this.#columns.push(column);
  }

  #say(column: ShapeColumn, says: string): void {
    this.#wrong.push({ column, says });
  }

  #face(side: Side): Face {
    return faceTowards(this.#placing.turn, side);
  }

  get #isUpright(): boolean {
    return this.#placing.turn[2] === 'L';
  }

  #blank(): Shape['blank'] {
    const { name, length, width, thickness, form } = this.#part;
    const outline = form?.outline;
    switch (outline?.kind) {
      case 'round':
        // Sizes that formulas give differ in their last digits.
        if (Math.abs(length - width) > 1e-6) {
          this.#say('shape', SHAPE_SAYS.roundSides(name));
          break;
        }
        return { kind: 'prism', outline: { kind: 'disc', diameter: length }, through: thickness };
      case 'oval':
        return { kind: 'prism', outline: { kind: 'oval', length, width }, through: thickness };
      case 'superellipse':
        return { kind: 'prism', outline: { ...outline, length, width }, through: thickness };
      case 'rounded':
        return { kind: 'prism', outline: { ...outline, length, width }, through: thickness };
      case 'rod':
        return {
          kind: 'prism',
          outline:
            Math.abs(width - thickness) <= 1e-6
              ? { kind: 'disc', diameter: width }
              : { kind: 'oval', length: width, width: thickness },
          through: length,
          along: 'length',
        };
    }
    return { kind: 'box', length, width, thickness };
  }

  /** An outline without flat sides, as sentences call it. */
  get #curved(): string | undefined {
    const outline = this.#part.form?.outline;
    return outline === undefined || outline.kind === 'rounded' ? undefined : outlineWord(outline);
  }

  #checkLean(): void {
    const { name, lean } = this.#part;
    if (lean === undefined) return;
    const { turn } = this.#placing;
    const column = lean.along === 0 ? 'splay across' : 'splay along';
    if (turn[2] === 'T') this.#say(column, SHAPE_SAYS.flat(name));
    else if (turn[2] === 'W') {
      const [runs, other] =
        turn[0] === 'L'
          ? (['splay along', 'splay across'] as const)
          : (['splay across', 'splay along'] as const);
      if (lean[runs === 'splay along' ? 'along' : 'across'] !== 0) {
        this.#say(runs, SHAPE_SAYS.leansAlong(name, runs, other));
      }
      if (this.#part.form?.ends?.lie === 'level') this.#say('ends', SHAPE_SAYS.levelEdge(name));
    }
    if (turn[2] === 'T') return;
    const [along, across] = this.#outward;
    if (lean.along !== 0 && along === 0 && !(turn[2] === 'W' && turn[0] === 'L')) {
      this.#say('splay along', SHAPE_SAYS.noOutside(name, 'along'));
    }
    if (lean.across !== 0 && across === 0 && !(turn[2] === 'W' && turn[0] !== 'L')) {
      this.#say('splay across', SHAPE_SAYS.noOutside(name, 'across'));
    }
  }

  #taper(): void {
    const { name, form } = this.#part;
    const taper = form?.taper;
    if (taper === undefined) return;
    if (this.#curved !== undefined) {
      this.#say('taper', SHAPE_SAYS.roundTaper(name, this.#curved));
      return;
    }
    const faces = this.#taperFaces(taper.faces);
    if (faces.length === 0) return;
    this.#add('taper to', { kind: 'taper', faces, to: taper.to, from: taper.from, towards: 'end' });
  }

  #taperFaces(said: NonNullable<NonNullable<FormedPart['form']>['taper']>['faces']): Face[] {
    const { name } = this.#part;
    if (said === 'four') return ['front', 'back', 'bottom', 'top'];
    if (said !== 'inside' && said !== 'outside') {
      return said.flatMap((side) => {
        const face = this.#face(side);
        if (face !== 'start' && face !== 'end') return [face];
        this.#say('taper', SHAPE_SAYS.noFace('taper', name, side));
        return [];
      });
    }
    const outer = outerSides(this.#outward);
    const sides = said === 'outside' ? outer : outer.map(opposite);
    const faces = sides
      .map((side) => this.#face(side))
      .filter((face) => face !== 'start' && face !== 'end');
    if (faces.length === 0) this.#say('taper', SHAPE_SAYS.noMiddle(name, said));
    return faces;
  }

  #arch(): void {
    const { name, form } = this.#part;
    if (form?.arch === undefined) return;
    const face = this.#face('bottom');
    if (this.#curved !== undefined) this.#say('arch', SHAPE_SAYS.roundArch(name, this.#curved));
    else if (face === 'start' || face === 'end') this.#say('arch', SHAPE_SAYS.arch(name));
    else this.#add('arch', { kind: 'arch', face, rise: form.arch });
  }

  #edge(): void {
    const { name, form } = this.#part;
    const edge = form?.edge;
    if (edge === undefined) return;
    const isRod = form?.outline?.kind === 'rod';
    const { profile, at, size } = edge;
    if (profile === 'cove' && form?.outline !== undefined) {
      this.#say('edge', SHAPE_SAYS.roundCove(name, outlineWord(form.outline)));
      return;
    }
    const sides = at.map((side) => this.#face(side));
    const edges = sides.length > 0 ? sides.map(around) : this.#allAround(isRod);
    if (profile === 'cove') {
      for (const pair of edges.flatMap(singly)) {
        this.#add('edge size', { kind: 'cove', edge: pair, radius: size });
      }
      return;
    }
    for (const one of edges) {
      this.#add(
        'edge size',
        profile === 'chamfer'
          ? { kind: 'chamfer', edge: one, width: size }
          : { kind: 'roundover', edge: one, radius: size },
      );
    }
  }

  /** What lies flat is rounded around its two faces, what stands or is on edge along its four edges. */
  #allAround(isRod: boolean): readonly EdgeName[] {
    if (isRod) return [around('start'), around('end')];
    const isFlat = this.#placing.turn[2] === 'T' || this.#part.form?.outline !== undefined;
    if (isFlat) return [around('bottom'), around('top')];
    return (['front', 'back'] as const).flatMap((face) => [
      [face, 'bottom'] as const,
      [face, 'top'] as const,
    ]);
  }

  #endCuts(): void {
    const { name, form, lean } = this.#part;
    const said = form?.ends?.cuts ?? [];
    if (said.length > 0 && this.#curved !== undefined && form?.outline?.kind !== 'rod') {
      this.#say('ends', SHAPE_SAYS.roundEnds(name, this.#curved));
      return;
    }
    const isLevel = lean !== undefined && this.#isUpright && form?.ends?.lie !== 'square';
    const cuts = said.flatMap((cut) => this.#signed(cut));
    for (const end of ['start', 'end'] as const) {
      const own = cuts.filter(({ at }) => at === undefined || at === end);
      const sum = (kind: EndCut['kind']): number =>
        own.find((cut) => cut.kind === kind)?.angle ?? 0;
      const [mitre, bevel] = [sum('mitre'), sum('bevel')];
      if (own.length === 0 && !isLevel) continue;
      const setting = this.#setting(end, mitre, bevel, isLevel && own.length === 0);
      if (setting === undefined || (setting.mitre === 0 && setting.bevel === 0)) continue;
      this.#ends[end] = setting;
      this.#add('ends', { kind: 'end', end, ...setting });
    }
  }

  /** As the saw is set, so that the end lies in the room as it would if the piece did not lean. */
  #setting(
    end: 'start' | 'end',
    mitre: number,
    bevel: number,
    isLevel: boolean,
  ): EndSetting | undefined {
    if (this.#part.lean === undefined) return { mitre, bevel };
    const along = end === 'end' ? 1 : -1;
    const own: Triple = isLevel ? [along, 0, 0] : normalOf(along, mitre, bevel);
    const upright: Placement = { axes: TURNED[this.#placing.turn], shift: [0, 0, 0] };
    const leaning = placementOf(this.#part, this.#placing, this.#copy);
    const angles = endAngles(leaning, turnedBy(upright, own), end);
    if (angles === undefined) return undefined;
    return { mitre: settled(angles.mitre), bevel: settled(angles.bevel) };
  }

  /** A cut with its sign, as the piece's own frame has it, and at its end. */
  #signed(cut: EndCut): readonly { kind: EndCut['kind']; angle: number; at?: 'start' | 'end' }[] {
    const { name } = this.#part;
    const { turn } = this.#placing;
    const [low, high] =
      cut.kind === 'mitre' ? (['front', 'back'] as const) : (['bottom', 'top'] as const);
    const longer = this.#longer(cut.longer, low, high);
    if (longer === undefined) return [];
    const angle = longer === low ? cut.angle : -cut.angle;
    if (cut.at === undefined) return [{ kind: cut.kind, angle }];
    const face = this.#face(cut.at);
    if (face !== 'start' && face !== 'end') {
      const ends = `${sideOf(turn, 'start')} and ${sideOf(turn, 'end')}`;
      this.#say('ends', SHAPE_SAYS.noEnd(name, cut.at, ends));
      return [];
    }
    return [{ kind: cut.kind, angle, at: face }];
  }

  /** Which of two opposite faces stays longer: the lower or the outer one where the words do not say. */
  #longer(said: SideOrWay | undefined, low: Face, high: Face): Face | undefined {
    const outer = outerSides(this.#outward);
    const sides: readonly Side[] =
      said === undefined
        ? ['bottom', ...outer, 'front', 'left']
        : said === 'outside'
          ? outer
          : said === 'inside'
            ? outer.map(opposite)
            : [said];
    const face = sides.map((side) => this.#face(side)).find((one) => one === low || one === high);
    if (face === undefined) {
      this.#say('ends', SHAPE_SAYS.notLonger(this.#part.name, said ?? 'outside'));
    }
    return face;
  }
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Away from the wood of an end that is sawn at an angle. */
function normalOf(along: number, mitre: number, bevel: number): Triple {
  const [m, b] = [radians(mitre), radians(bevel)];
  return [along * Math.cos(b) * Math.cos(m), Math.cos(b) * Math.sin(m), Math.sin(b)];
}

/** Without what rounding leaves, so that pieces alike have equal shapes. */
const settled = (degrees: number): number => Math.round(degrees * 1e9) / 1e9 + 0;

const OPPOSITE: Readonly<Record<Side, Side>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  bottom: 'top',
  top: 'bottom',
};
const opposite = (side: Side): Side => OPPOSITE[side];

const around = (face: Face): EdgeName => [face, 'around'];

/** The edges around a face one by one. */
function singly([face, other]: EdgeName): (readonly [Face, Face])[] {
  if (other !== 'around') return [[face, other]];
  const [low, high] = ends(face);
  const others: readonly Face[] = ['start', 'end', 'front', 'back', 'bottom', 'top'];
  return others.filter((one) => one !== low && one !== high).map((one) => [face, one]);
}

const PAIRS: readonly (readonly [Face, Face])[] = [
  ['start', 'end'],
  ['front', 'back'],
  ['bottom', 'top'],
];
const ends = (face: Face): readonly [Face, Face] => PAIRS.find((pair) => pair.includes(face))!;
