import { late } from './part.ts';

/** The parts of `parts.ts`, loaded when they are asked for; the app's build takes this in its place. */
export const cutting = late(async () => {
  const { CuttingFault, pickBoards, planLengths } = await import('@kerfbook/cutting');
  return { CuttingFault, pickBoards, planLengths };
});

export const numberFormats = late(async () => {
  const { format } = await import('numfmt');
  return { format };
});
