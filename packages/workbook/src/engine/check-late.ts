/**
 * The app's build takes this in the place of `check.ts`: which version of HyperFormula it holds is settled
 * when it is built, and it is looked into then (`apps/grid/scripts/leave-out.mjs`).
 */
export function checkEngine(): void {}
