import type { Part } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { Stage } from './stage.ts';

/**
 * The stage as it stands when a step makes its parts: without joints that a later step cuts into them, and without a
 * taper that a later step gives them. The same stage where nothing is still to come.
 */
export function asItIsThen(
  stage: Stage,
  step: BuiltStep,
): { readonly stage: Stage; readonly step: BuiltStep } {
  const then = new Map<Part, Part>();
  for (const part of step.parts) {
    const plain = withoutLater(stage, step, part);
    if (plain !== part) then.set(part, plain);
  }
  if (then.size === 0) return { stage, step };
  const { source, plan, options, eye, isTurned } = stage;
  const was = (part: Part): Part => then.get(part) ?? part;
  const steps = plan.steps.map((one) => ({ ...one, parts: one.parts.map(was) }));
  const parts = { ...plan.parts, parts: plan.parts.parts.map(was) };
  return {
    stage: new Stage(source, { ...plan, steps, parts }, { ...options, eye }, isTurned),
    step: { ...step, parts: step.parts.map(was) },
  };
}

function withoutLater({ plan }: Stage, step: BuiltStep, part: Part): Part {
  const later = plan.steps.filter(
    ({ number, figure }) => number > step.number && namesIn(figure.of).includes(keyOf(part.name)),
  );
  const has = (kind: string): boolean => later.some(({ figure }) => figure.kind === kind);
  const { cuts, form, ...rest } = part;
  const { taper, ...straight } = form ?? {};
  const keepsCuts = cuts !== undefined && !has('joint');
  const keepsTaper = taper !== undefined && !has('taper');
  if (keepsCuts === (cuts !== undefined) && keepsTaper === (taper !== undefined)) return part;
  const left = keepsTaper ? form : straight;
  return {
    ...rest,
    ...(keepsCuts ? { cuts } : {}),
    ...(left === undefined || Object.keys(left).length === 0 ? {} : { form: left }),
  };
}

const keyOf = (name: string): string => name.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/** What a figure is of: `Long apron into Leg` is of both. */
const namesIn = (of = ''): readonly string[] => of.split(/,|\binto\b/i).map(keyOf);
