import type { Session } from '../session/session.ts';

/** Puts a workbook that was just turned on round metric figures: a step of its own, so that undo gives exact ones. */
export async function roundSizes(session: Session): Promise<void> {
  const [{ roundFigures }] = await Promise.all([import('./round-figures.ts'), session.settled()]);
  const { book } = session;
  // Whoever wrote or undid something meanwhile goes on with that.
  if (book.units !== 'metric' || !session.mayChange || session.editing !== undefined) return;
  const edit = roundFigures(book.document());
  if (edit === undefined) return;
  session.apply(edit, 'Sizes rounded to marks of a metric rule; undo for the exact conversion');
}
