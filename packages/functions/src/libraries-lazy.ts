import { lazy } from './lazy.ts';

/**
 * Writes numbers by formats such as `0.00`, for TEXT; loaded when it is asked for. The app's build takes this in
 * the place of `libraries.ts`.
 */
export const numberFormats = lazy(async () => {
  const { format } = await import('numfmt');
  return { format };
});

/** What shaped parts of a table measure and whether they meet. */
export const shapedParts = lazy(async () => (await import('./shaped-parts.ts')).SHAPED);
