import { buildScene, chooseEye, type ShopPlan, sawnAlone, shopPlan } from '@kerfbook/drawing';
import type { Figure, FigureOptions } from '../figures/figure.ts';
import { figureDrawer } from '../figures/figures.ts';
import type { GuideSource } from '../source.ts';
import type { BuiltStep } from '../steps/built.ts';
import { cautionsSection, checksSection, coverSection } from './cover.ts';
import { creditsSection, lostSection } from './credits.ts';
import { cutListSection } from './cut-list.ts';
import { cuttingPlanSection } from './cutting-plan.ts';
import { careSection, finishSection } from './finish.ts';
import type { Html } from './html.ts';
import { type Making, makingOf } from './making.ts';
import { needsSection } from './needs.ts';
import { GUIDE_PARTS, type GuideOptions, type GuidePart, type GuideSection } from './options.ts';
import { stepId, stepSection } from './steps.ts';

/** What a printed guide and a page for readers show, part by part, at the size the workbook has now. */
export function guideSections(
  source: GuideSource,
  options: GuideOptions = {},
): readonly GuideSection[] {
  return sectionsOf(makingOf(source, options));
}

/** The same of what was read already. */
export function sectionsOf(making: Making): readonly GuideSection[] {
  const maker = new SectionMaker(making);
  return maker.ids.flatMap((id) => maker.make(id) ?? []);
}

/** Makes a guide section by section, each when it is asked for; what several need is worked out once. */
export class SectionMaker {
  readonly #making: Making;
  #seen: Making | undefined;
  #steps: ReadonlyMap<string, BuiltStep> | undefined;
  #shop: { readonly is: ShopPlan | undefined } | undefined;
  #figure: ((step: BuiltStep) => Figure | undefined) | undefined;

  constructor(making: Making) {
    this.#making = making;
  }

  /** The ids of all sections that are wanted, in their order; some of them come to nothing. */
  get ids(): readonly string[] {
    const wanted = new Set<GuidePart>(this.#making.options.parts ?? GUIDE_PARTS);
    return GUIDE_PARTS.filter((part) => wanted.has(part)).flatMap((part) =>
      part === 'steps' ? [...this.#stepById.keys()] : [part],
    );
  }

  /** Whether a section is a step with a figure. */
  hasFigure(id: string): boolean {
    const kind = this.#stepById.get(id)?.figure.kind;
    return kind !== undefined && kind !== 'none';
  }

  /** Whether a section shows some of the plan for buying and cutting, which takes a while to work out. */
  needsPlan(id: string): boolean {
    if (id === 'needs' || id === 'cutting-plan') return true;
    return this.#stepById.get(id)?.figure.kind === 'cutting';
  }

  /** A section; undefined where there is nothing of it. */
  make(id: string): GuideSection | undefined {
    const html = this.#made(id);
    return html === undefined ? undefined : { id, html: html.markup };
  }

  #made(id: string): Html | undefined {
    const making = this.#making;
    switch (id as Exclude<GuidePart, 'steps'>) {
      case 'cover':
        return coverSection(this.#seenMaking());
      case 'checks':
        return checksSection(making);
      case 'needs':
        return needsSection(making, this.#shopPlan());
      case 'cautions':
        return cautionsSection(making);
      case 'cut-list':
        return cutListSection(making);
      case 'cutting-plan':
        return cuttingPlanSection(making, this.#shopPlan());
      case 'finish':
        return finishSection(making);
      case 'care':
        return careSection(making);
      case 'lost':
        return lostSection(making);
      case 'credits':
        return creditsSection(making);
      default: {
        const step = this.#stepById.get(id);
        return step === undefined ? undefined : stepSection(making, step, this.#figureOf(step));
      }
    }
  }

  get #stepById(): ReadonlyMap<string, BuiltStep> {
    this.#steps ??= new Map(this.#making.plan.steps.map((step) => [stepId(step), step]));
    return this.#steps;
  }

  /** Cover and steps are looked at from one place, which takes a while to find. */
  #seenMaking(): Making {
    const { options, plan } = this.#making;
    this.#seen ??= {
      ...this.#making,
      options: { ...options, eye: options.eye ?? chooseEye(buildScene(plan.parts.parts)) },
    };
    return this.#seen;
  }

  #shopPlan(): ShopPlan | undefined {
    const { options, source } = this.#making;
    this.#shop ??= {
      is:
        options.plan === 'later'
          ? undefined
          : sawnAlone(source, options.plan ?? shopPlan(source, 'cell')),
    };
    return this.#shop.is;
  }

  #figureOf(step: BuiltStep): Figure | undefined {
    this.#figure ??= this.#drawer();
    return this.#figure(step);
  }

  #drawer(): (step: BuiltStep) => Figure | undefined {
    const { source, plan, options } = this.#seenMaking();
    const how: FigureOptions = {
      sizes: 'beside',
      ...(options.print === true ? { print: true } : {}),
      ...(options.eye === undefined ? {} : { eye: options.eye }),
      shop: () => this.#shopPlan(),
    };
    if (options.figures === undefined) return figureDrawer(source, plan, how);
    const all = options.figures(source, plan, how);
    return ({ key }) => all.get(key);
  }
}
