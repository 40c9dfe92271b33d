import {
  asCell,
  contextOf,
  readVariants,
  runVariants,
  takeEdit,
  type VariantRun,
} from '@kerfbook/studies';
import { type At, type OpenWorkbook, showWithUnit } from '@kerfbook/workbook';
import { StartTable } from '../commands/start-table.tsx';
import type { Session } from '../session/session.ts';
import { Progress } from './progress.tsx';
import { labelOf } from './study-form.tsx';
import { useRun } from './use-run.ts';
import { VariantsDiffer } from './variants-differ.tsx';

interface VariantsViewProps {
  readonly session: Session;
  readonly book: OpenWorkbook;
  readonly changes: number;
  readonly onGo: (at: At) => void;
}

/** The variants of a workbook side by side with it as it stands. */
export function VariantsView({ session, book, changes, onGo }: VariantsViewProps) {
  const table = book.tables().find(({ kind }) => kind === 'variants');
  const { variants, problems } = readVariants(book);
  const results = book.results.flatMap((name) => book.named(name) ?? []);
  const run = useRun<VariantRun>(
    book,
    changes,
    'variants',
    variants.length === 0
      ? undefined
      : (asker, waiting) => runVariants(book, asker, variants, results, waiting),
  );
  if (table === undefined) {
    return (
      <div className="plan-nothing">
        <p className="quiet">
          A variant is a set of changes under a name, such as Oak, 8 ft. Each is worked out beside
          the workbook as it stands.
        </p>
        <StartTable session={session} kind="variants" here />
      </div>
    );
  }
  const { answer } = run;
  const base = answer?.outcomes[0];
  return (
    <>
      <p className="quiet">
        A row for each variant, and a column for each input that one of them changes; they are
        written on their sheet.{' '}
        <button
          type="button"
          className="button"
          onClick={() => onGo({ sheet: table.sheet, row: table.header + 1, column: 0 })}
        >
          To the variants
        </button>
      </p>
      {problems.map(({ at, says }) => (
        <p key={`${at.row} ${at.column}`} role="alert" className="whatif-says">
          {says}
        </p>
      ))}
      <Progress run={run} of={variants.length + 1} />
      {answer === undefined || base === undefined ? null : (
        <div className="whatif-scroll">
          <table className="whatif-table">
            <thead>
              <tr>
                <th scope="col">Result</th>
                <th scope="col">As it stands</th>
                {variants.map(({ id, name }) => (
                  <th key={id} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {answer.inputs.map((cell, i) => (
                <tr key={cell.address + cell.at.sheet}>
                  <th scope="row">{labelOf(book, cell.name ?? '')}</th>
                  {answer.outcomes.map(({ set }, column) => {
                    const value = set[i];
                    return (
                      <td
                        key={variants[column - 1]?.id ?? ''}
                        className={value === base.set[i] ? 'quiet' : 'whatif-other'}
                      >
                        {showWithUnit(asCell(value), contextOf(book, cell))}
                      </td>
                    );
                  })}
                </tr>
              ))}
              {answer.results.map((cell, i) => (
                <tr key={cell.address + cell.at.sheet}>
                  <th scope="row">{labelOf(book, cell.name ?? '')}</th>
                  {answer.outcomes.map(({ values }, column) => {
                    const [value, was] = [values[i], base.values[i]];
                    const isOther = JSON.stringify(value) !== JSON.stringify(was);
                    return (
                      <td
                        key={variants[column - 1]?.id ?? ''}
                        className={isOther ? 'whatif-other' : undefined}
                      >
                        {value === undefined ? '' : showWithUnit(value, contextOf(book, cell))}
                      </td>
                    );
                  })}
                </tr>
              ))}
              <tr>
                <th scope="row">Checks</th>
                {answer.outcomes.map(({ failing }, column) => (
                  <td key={variants[column - 1]?.id ?? ''} className="whatif-checks">
                    {failing.length === 0
                      ? 'all hold'
                      : failing.map(({ name, state }) => `${state}: ${name}`).join('; ')}
                  </td>
                ))}
              </tr>
              <tr>
                <th scope="row">Workbook</th>
                <td />
                {variants.map((variant) => (
                  <td key={variant.id}>
                    <button
                      type="button"
                      className="button"
                      disabled={!session.mayChange}
                      aria-label={`Take it: ${variant.name}`}
                      onClick={() => session.apply(takeEdit(book, variant.inputs))}
                    >
                      Take it
                    </button>
                  </td>
                ))}
              </tr>
            </tbody>
          </table>
        </div>
      )}
      {variants.length === 0 ? null : (
        <VariantsDiffer book={book} variants={variants} changes={changes} />
      )}
    </>
  );
}
