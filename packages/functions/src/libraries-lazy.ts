import { lazy } from './lazy.ts';

/** The libraries of `libraries.ts`, loaded when they are asked for; the app's build takes this in its place. */
export const cutting = lazy(async () => {
  const { CuttingFault, pickBoards, planLengths, planSheets } = await import('@kerfbook/cutting');
  return { CuttingFault, pickBoards, planLengths, planSheets };
});

/** Writes numbers by formats such as `0.00`, for TEXT. */
export const numberFormats = lazy(async () => {
  const { format } = await import('numfmt');
  return { format };
});
