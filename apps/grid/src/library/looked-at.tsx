import { bookFormat, buildScene, drawWhole, readParts } from '@kerfbook/drawing';
import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { useMemo } from 'react';
import { Picture } from '../pictures/picture.tsx';
import { wordsFor } from '../session/called.ts';

/** Room for the picture, in its own units. */
const PANEL = { width: 560, height: 320 };

/** What a workbook is, to someone who has not opened it: what it draws, what it comes to, what fails. */
export function LookedAt({ document }: { readonly document: BookDocument }) {
  const seen = useMemo(() => lookAt(document), [document]);
  const { facts, results, failing, picture } = seen;
  return (
    <div className="looked-at">
      <h3>{document.title}</h3>
      {document.about === undefined ? null : <p>{document.about}</p>}
      {picture === undefined ? null : (
        <div className="looked-at-picture">
          <Picture svg={picture} />
        </div>
      )}
      <dl className="title-facts">
        {[...facts, ...results].map(([what, says]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <p>
        {failing.length === 0
          ? checksWords(document.checks.length)
          : `${failing.length} of ${document.checks.length} checks are not OK:`}
      </p>
      {failing.length === 0 ? null : (
        <ul>
          {failing.map(({ id, says }) => (
            <li key={id}>{says}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

type Fact = readonly [what: string, says: string];

function lookAt(document: BookDocument) {
  const book = Workbook.open(document);
  const { parts } = readParts(book);
  const pieces = parts.reduce((sum, { count }) => sum + count, 0);
  const { lineage, author, licence, customer, job } = document;
  const facts: Fact[] = [
    ['Sheets', document.sheets.map(({ name }) => name).join(', ')],
    ['Units', document.units === 'us' ? 'inches and pounds' : 'millimeters and kilograms'],
  ];
  if (pieces > 0) facts.push(['Parts', String(pieces)]);
  if (lineage !== undefined) facts.push(['Made from', lineage.template]);
  if (author !== undefined) facts.push(['By', author]);
  if (licence !== undefined) facts.push(['License', licence]);
  if (customer !== undefined) facts.push(['Customer', customer]);
  if (job !== undefined) facts.push(['Job number', job]);
  const results = book.results.flatMap((name): readonly Fact[] => {
    const at = book.find(name);
    if (at === undefined) return [];
    const { shown, unit } = book.cell(at);
    return [[wordsFor(at, book) ?? name, unit === '' ? shown.text : `${shown.text} ${unit}`]];
  });
  const failing = book.checks().filter(({ state }) => state !== 'pass');
  const picture = drawWhole(buildScene(parts), { format: bookFormat(book), panel: PANEL });
  return { facts, results, failing, picture };
}

function checksWords(many: number): string {
  if (many === 0) return 'It has no checks.';
  return many === 1 ? 'Its check is OK.' : `All ${many} checks are OK.`;
}
