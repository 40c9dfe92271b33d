import {
  buildScene,
  chooseEye,
  type DetailPicture,
  type Eye,
  type Format,
  type ParallelView,
  type Part,
  type Piece,
  parallelView,
  type Scene,
  type SeenFace,
  type Segment,
  type ShopPlan,
  sawnAlone,
  shadeOfFace,
  shopPlan,
} from '@kerfbook/drawing';
import type { Plan } from '../plan.ts';
import type { GuideSource } from '../source.ts';
import type { BuiltStep } from '../steps/built.ts';
import { guideFormat } from '../text/as-said.ts';
import { spokenSvg } from '../words/spoken-svg.ts';
import type { FigureOptions } from './figure.ts';
import { asWritten, type Speak, speakOf } from './speak.ts';

/** Looked at from here, a figure's place on the paper, mm: x to the right, y up. */
export type Rectangle = ParallelView['bounds'];

/** What all figures of one plan share: its scene, the eye, and what is worked out once. */
export class Stage {
  /** Puts a writing of a figure into the language of the plan. */
  readonly speak: Speak;
  readonly source: GuideSource;
  readonly plan: Plan;
  readonly options: FigureOptions;
  readonly format: Format;
  readonly scene: Scene;
  readonly #stepOf: ReadonlyMap<Part, number>;
  readonly #views = new Map<string, ParallelView | undefined>();
  /** The piece lies upside down. */
  readonly isTurned: boolean;
  #eye: Eye | undefined;
  #shop: ShopPlan | undefined;

  constructor(source: GuideSource, plan: Plan, options: FigureOptions, isTurned = false) {
    this.source = source;
    this.plan = plan;
    this.options = options;
    this.isTurned = isTurned;
    this.speak = speakOf(source, plan);
    this.format = guideFormat(source);
    this.scene = buildScene(plan.parts.parts);
    this.#stepOf = new Map(
      plan.steps.flatMap(({ number, parts }) => parts.map((part) => [part, number] as const)),
    );
  }

  /** Where every figure of the plan is looked at from, so that one can be compared with the next. */
  get eye(): Eye {
    this.#eye ??= this.options.eye ?? chooseEye(this.scene);
    return this.#eye;
  }

  /** The plan for buying and cutting. */
  get shop(): ShopPlan {
    const { shop } = this.options;
    this.#shop ??= sawnAlone(
      this.source,
      (typeof shop === 'function' ? shop() : shop) ?? shopPlan(this.source, 'cell'),
    );
    return this.#shop;
  }

  /** Around the finished piece on the paper; undefined where nothing has a place. */
  get bounds(): Rectangle | undefined {
    return this.view(this.scene.pieces)?.bounds;
  }

  /** Whether a piece is made or put on in this step. */
  isNew(piece: Piece, step: BuiltStep): boolean {
    return this.#stepOf.get(piece.part) === step.number;
  }

  /** A drawing that was made elsewhere, its writings in the language of the plan. */
  spoken(svg: string): string {
    return this.speak === asWritten ? svg : spokenSvg(svg, this.speak, ({ lang }) => lang);
  }

  /** What stands before a step, and what comes in it; in the order of the scene. */
  piecesAt(step: BuiltStep): {
    readonly before: readonly Piece[];
    readonly now: readonly Piece[];
    readonly both: readonly Piece[];
  } {
    const numberOf = ({ part }: Piece): number => this.#stepOf.get(part) ?? Infinity;
    const { pieces } = this.scene;
    return {
      before: pieces.filter((piece) => numberOf(piece) < step.number),
      now: pieces.filter((piece) => numberOf(piece) === step.number),
      both: pieces.filter((piece) => numberOf(piece) <= step.number),
    };
  }

  /** Pieces of the scene as the eye sees them, nothing else being there. */
  view(pieces: readonly Piece[]): ParallelView | undefined {
    const all = pieces.length === this.scene.pieces.length;
    const key = all ? 'all' : pieces.map((one) => this.#indexOf(one)).join(' ');
    if (!this.#views.has(key)) {
      const scene = all ? this.scene : { ...this.scene, pieces };
      const view = parallelView(scene, this.isTurned ? fromBelow(this.eye) : this.eye);
      this.#views.set(key, this.isTurned ? upsideDown(view) : view);
    }
    return this.#views.get(key);
  }

  #turned: Stage | undefined;

  /** The same with the piece upside down, as it lies when a base is set on its top. */
  turnedOver(): Stage {
    this.#turned ??= new Stage(this.source, this.plan, { ...this.options, eye: this.eye }, true);
    return this.#turned;
  }

  /** How light a face of a view is. */
  shadeOf(face: SeenFace): number {
    return this.isTurned
      ? shadeOfFace(face, fromBelow(this.eye), true)
      : shadeOfFace(face, this.eye);
  }

  #details: readonly DetailPicture[] | undefined;

  /** Details of joints, made once. */
  details(make: () => readonly DetailPicture[]): readonly DetailPicture[] {
    this.#details ??= make();
    return this.#details;
  }

  #places: Map<Piece, number> | undefined;

  #indexOf(piece: Piece): number {
    this.#places ??= new Map(this.scene.pieces.map((one, i) => [one, i]));
    return this.#places.get(piece) ?? -1;
  }
}

/** Seen from as far below as an eye is above, and drawn the other way up, a thing is what it is upside down. */
const fromBelow = ({ azimuth, elevation }: Eye): Eye => ({ azimuth, elevation: -elevation });

function upsideDown(view: ParallelView | undefined): ParallelView | undefined {
  if (view === undefined) return undefined;
  const { pieces, visible, bounds, traces } = view;
  const turned = ({ x1, y1, x2, y2 }: Segment): Segment => ({ x1: -x1, y1: -y1, x2: -x2, y2: -y2 });
  return {
    ...view,
    pieces: pieces.map((piece) => ({
      ...piece,
      faces: piece.faces.map((face) => ({
        ...face,
        outlines: face.outlines.map((outline) => outline.map(([x, y]) => [-x, -y] as const)),
      })),
    })),
    visible: visible.map(turned),
    traces: traces.map(turned),
    bounds: {
      left: -bounds.right,
      right: -bounds.left,
      top: -bounds.bottom,
      bottom: -bounds.top,
    },
  };
}
