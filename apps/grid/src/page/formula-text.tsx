import { Fragment } from 'react';

/** A formula in words of a page: where it has no room it is broken behind a sign, and no name in the middle. */
export function FormulaText({ says }: { readonly says: string }) {
  const pieces = says.match(/[^-+*/^&<>=,;(]*[-+*/^&<>=,;(]*/g) ?? [];
  return pieces.map((piece, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of one text stay in their order.
    <Fragment key={i}>
      {piece}
      <wbr />
    </Fragment>
  ));
}
