import type { FlatCell, FlatSheet, ToldOut } from './flat-book.ts';

const WIDTHS = [260, 760] as const;

/** A sheet at the end that says where the file comes from and what in it is otherwise than in the workbook. */
export function aboutSheet(name: string, title: string, told: readonly ToldOut[]): FlatSheet {
  const frozen = told.filter(({ kind }) => kind === 'frozen').length;
  const lines: readonly (readonly [string, string?])[] = [
    [title],
    [
      'Written by Kerfbook. Formulas go on working here, but for those whose last value stands in their place.',
    ],
    ['Numbers are in the workbook’s own units, since formulas rest on them.'],
    [`${frozen} of its formulas and checks stand as their last value.`],
    [''],
    ...(told.length === 0 ? [] : [['Where', 'What is otherwise'] as const]),
    ...told.map(({ of, says }) => [of, says] as const),
  ];
  const heads = new Set([0, told.length === 0 ? -1 : 5]);
  const cells = lines.flatMap((line, row) =>
    line.flatMap((text = '', column): FlatCell[] =>
      text === ''
        ? []
        : [
            {
              row,
              column,
              value: { kind: 'text', text },
              look: heads.has(row)
                ? { role: 'heading' }
                : column === 1
                  ? { style: { wrap: true } }
                  : {},
            },
          ],
    ),
  );
  return {
    name,
    isHidden: false,
    isLocked: false,
    columns: WIDTHS.map((width) => ({ width, isHidden: false })),
    rows: [],
    frozen: { rows: 0, columns: 0 },
    cells,
    marks: [],
  };
}
