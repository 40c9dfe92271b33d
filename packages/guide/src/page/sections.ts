import { buildScene, chooseEye, shopPlan } from '@kerfbook/drawing';
import { figuresOf } from '../figures/figures.ts';
import type { GuideSource } from '../source.ts';
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
export function sectionsOf(of: Making): readonly GuideSection[] {
  const { source, plan } = of;
  const wanted = new Set<GuidePart>(of.options.parts ?? GUIDE_PARTS);
  // Cover and steps are looked at from one place, which takes a while to find.
  const eye =
    of.options.eye ??
    (wanted.has('cover') || wanted.has('steps')
      ? chooseEye(buildScene(plan.parts.parts))
      : undefined);
  const making = eye === undefined ? of : { ...of, options: { ...of.options, eye } };
  const { options } = making;
  const needsPlan = wanted.has('needs') || wanted.has('cutting-plan');
  const shop =
    options.plan === 'later' || !needsPlan ? undefined : (options.plan ?? shopPlan(source, 'cell'));
  const made: Readonly<Record<Exclude<GuidePart, 'steps'>, () => Html | undefined>> = {
    cover: () => coverSection(making),
    checks: () => checksSection(making),
    needs: () => needsSection(making, shop),
    cautions: () => cautionsSection(making),
    'cut-list': () => cutListSection(making),
    'cutting-plan': () => cuttingPlanSection(making, shop),
    finish: () => finishSection(making),
    care: () => careSection(making),
    lost: () => lostSection(making),
    credits: () => creditsSection(making),
  };
  return GUIDE_PARTS.filter((part) => wanted.has(part)).flatMap((part): readonly GuideSection[] => {
    if (part !== 'steps') {
      const html = made[part]();
      return html === undefined ? [] : [{ id: part, html: html.markup }];
    }
    const figures = (options.figures ?? figuresOf)(source, plan, {
      sizes: 'beside',
      ...(options.print === true ? { print: true } : {}),
      ...(shop === undefined ? {} : { shop }),
      ...(options.eye === undefined ? {} : { eye: options.eye }),
    });
    return plan.steps.map((step) => ({
      id: stepId(step),
      html: stepSection(making, step, figures.get(step.key)).markup,
    }));
  });
}
