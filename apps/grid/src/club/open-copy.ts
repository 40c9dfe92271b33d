import type { Bookcase } from '@kerfbook/keeping';
import { addFromShelf } from '@kerfbook/keeping/shelf';
import type { ListedTemplate } from '@kerfbook/protocol';
import { Told } from './here.ts';
import { revisionOf } from './revisions-read.ts';

/**
 * Keeps a revision as a workbook of this device that rests on it, and shows that.
 * @throws ClubRefused or Told, with a sentence for the person
 */
export async function openCopy(
  bookcase: Bookcase,
  { id, title }: ListedTemplate,
  number: number,
): Promise<void> {
  const { document, text } = await revisionOf(id, number);
  const done = await addFromShelf(bookcase, document, {
    template: id,
    title,
    revision: number,
    text,
  });
  if (!done.ok) throw new Told(done.says);
}
