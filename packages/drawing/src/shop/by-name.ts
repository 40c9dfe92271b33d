import type { ShopPlan, ShopSource } from './shop-plan.ts';

/**
 * Whether what is of this material stands for hardware that is counted by its name: slides are in the parts table to be
 * drawn, and their stock costs nothing so that no plan buys them. As wood of no price they would be taken to be at hand.
 */
export function isCountedByName(
  source: Pick<ShopSource, 'named'>,
  material: string | undefined,
): boolean {
  if (!/^slides?$/i.test((material ?? '').trim())) return false;
  const pairs = source.named('slide_pairs')?.value;
  return pairs?.kind === 'number' && pairs.number > 0;
}

/** A plan without boards that stand for hardware, which nobody saws. */
export function sawnAlone(source: Pick<ShopSource, 'named'>, shop: ShopPlan): ShopPlan {
  const { plan } = shop;
  if (plan === undefined) return shop;
  const groups = plan.groups.filter(({ material }) => !isCountedByName(source, material));
  return groups.length === plan.groups.length ? shop : { ...shop, plan: { ...plan, groups } };
}
