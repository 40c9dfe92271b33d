import type { PartProblem } from '@kerfbook/drawing';
import type { Plan } from '../plan.ts';
import type { GuideSource } from '../source.ts';
import type { BuiltStep } from '../steps/built.ts';
import type { FigureKind } from '../steps/figures-known.ts';
import { assemblyFigure, partsFigure, turnedOverFigure } from './assembly.ts';
import { bandingFigure } from './banding.ts';
import { barsFigure } from './bars.ts';
import { boardsFigure } from './boards.ts';
import { buttonsFigure } from './buttons.ts';
import { coatsFigure } from './coats.ts';
import { cuttingFigure } from './cutting.ts';
import { fastenersFigure } from './fasteners.ts';
import type { Figure, FigureOptions } from './figure.ts';
import { dryFitFigure } from './frame.ts';
import { glueUpFigure } from './glue-up.ts';
import { grooveFigure } from './groove.ts';
import { hingesFigure } from './hinges.ts';
import { jointFigure } from './joint.ts';
import { layersFigure } from './layers.ts';
import { markingFigure } from './marking.ts';
import { millingFigure } from './milling.ts';
import { gapsFigure, openingFigure } from './opening.ts';
import { panelGapFigure } from './panel-gap.ts';
import {
  edgeFigure,
  flatteningFigure,
  outlineFigure,
  sandingFigure,
  squaringFigure,
} from './panel-plan.ts';
import { partSizesFigure } from './part-sizes.ts';
import { pocketFigure } from './pocket-holes.ts';
import { rodFigure } from './rod.ts';
import { screwsFigure } from './screws.ts';
import { seasonsFigure } from './seasons.ts';
import { slotsFigure } from './slots.ts';
import { stackFigure } from './stack.ts';
import { Stage } from './stage.ts';
import { taperFigure } from './taper.ts';
import { tenonsFigure } from './tenons.ts';

/** Draws the figure of a step, or says in a sentence why there is none. */
type Draw = (stage: Stage, step: BuiltStep) => Figure | string;

const KINDS: Readonly<Record<Exclude<FigureKind, 'none'>, Draw>> = {
  assembly: assemblyFigure,
  'turned over': turnedOverFigure,
  'glue-up': glueUpFigure,
  groove: grooveFigure,
  'pocket holes': pocketFigure,
  fasteners: fastenersFigure,
  seasons: seasonsFigure,
  joint: jointFigure,
  cutting: cuttingFigure,
  parts: partsFigure,
  stack: stackFigure,
  milling: millingFigure,
  flattening: flatteningFigure,
  squaring: squaringFigure,
  outline: outlineFigure,
  edge: edgeFigure,
  sanding: sandingFigure,
  sizes: partSizesFigure,
  tenons: tenonsFigure,
  taper: taperFigure,
  slots: slotsFigure,
  buttons: buttonsFigure,
  'dry fit': dryFitFigure,
  'panel gap': panelGapFigure,
  coats: coatsFigure,
  boards: boardsFigure,
  marking: markingFigure,
  screws: screwsFigure,
  opening: openingFigure,
  gaps: gapsFigure,
  hinges: hingesFigure,
  banding: bandingFigure,
  layers: layersFigure,
  rod: rodFigure,
  bars: barsFigure,
};

/**
 * The figure of one step; undefined where it has none, or where it cannot be drawn: `figureProblems` says why.
 * Whoever wants several asks `figuresOf`.
 */
export const figureOf = (
  source: GuideSource,
  plan: Plan,
  step: BuiltStep,
  options: FigureOptions = {},
): Figure | undefined => drawn(new Stage(source, plan, options), step).figure;

/** The figures of all steps that have one, by the keys of the steps; what they share is worked out once. */
export function figuresOf(
  source: GuideSource,
  plan: Plan,
  options: FigureOptions = {},
): ReadonlyMap<string, Figure> {
  const draw = figureDrawer(source, plan, options);
  const figures = new Map<string, Figure>();
  for (const step of plan.steps) {
    const figure = draw(step);
    if (figure !== undefined) figures.set(step.key, figure);
  }
  return figures;
}

/** Draws figures of one plan step by step; what they share is worked out once. */
export function figureDrawer(
  source: GuideSource,
  plan: Plan,
  options: FigureOptions = {},
): (step: BuiltStep) => Figure | undefined {
  const stage = new Stage(source, plan, options);
  return (step) => drawn(stage, step).figure;
}

/** Figures that steps ask for and that cannot be drawn at this size, each at its step. */
export function figureProblems(source: GuideSource, plan: Plan): readonly PartProblem[] {
  const stage = new Stage(source, plan, {});
  return plan.steps.flatMap((step) => {
    if (step.round !== undefined && step.round.is > 1) return [];
    const { says } = drawn(stage, step);
    return says === undefined ? [] : [{ at: step.at, says }];
  });
}

function drawn(
  stage: Stage,
  step: BuiltStep,
): { readonly figure?: Figure; readonly says?: string } {
  const { kind } = step.figure;
  if (kind === 'none') return {};
  const { sizes } = stage.options;
  const measures = step.measures.map((one) => ({ ...one, isTold: true as const }));
  const figure = KINDS[kind](stage, sizes === 'beside' ? { ...step, measures } : step);
  return typeof figure === 'string'
    ? { says: `Step ${step.number}: ${figure}` }
    : { figure: spoken(stage, figure) };
}

/** What is said of a figure, in the language of the plan; its writings are already. */
function spoken({ speak }: Stage, { svg, says, caption, tells }: Figure): Figure {
  const [said, under] = [speak(says), caption === undefined ? undefined : speak(caption)];
  return {
    svg,
    says: said.words,
    ...(said.lang === undefined ? {} : { saysLang: said.lang }),
    ...(under === undefined ? {} : { caption: under.words }),
    ...(under?.lang === undefined ? {} : { captionLang: under.lang }),
    ...(tells === undefined ? {} : { tells }),
  };
}
