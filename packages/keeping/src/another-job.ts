import { type BookDocument, jobBegun } from '@kerfbook/workbook';

/**
 * A workbook without what is one job's own: whom it is for, its number, its days, the state of the work, and which
 * state of its plan was handed out.
 */
export function forAnotherJob(document: BookDocument): BookDocument {
  const {
    customer: _whom,
    job: _number,
    due: _day,
    agreed: _price,
    revision: _state,
    guide,
    ...kept
  } = jobBegun(document);
  if (guide === undefined) return kept;
  const { published: _published, ...plan } = guide;
  return Object.keys(plan).length === 0 ? kept : { ...kept, guide: plan };
}
