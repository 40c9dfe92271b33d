import type { TemplateOnShelf } from '@kerfbook/keeping';
import { askClub } from './here.ts';
import { revisionOf } from './revisions-read.ts';

/** What a template of the club's shelf is now; nothing where it is not there. Rejects where the club cannot be reached. */
export async function shelfNow(id: string): Promise<TemplateOnShelf> {
  const { template, revisions } = await askClub('template', { params: { template: id } });
  const sign = revisions.find(({ number }) => number === template.revision)?.sign ?? '';
  const text = async (revision = template.revision): Promise<string> =>
    (await revisionOf(id, revision)).text;
  return { title: template.title, revision: template.revision, sign, text };
}
