import type { OpenWorkbook } from '../api.ts';
import { moneySign } from '../quantities/money.ts';
import type { BareUnit } from './sizes-in.ts';
import type { ListContext, ListKind } from './types.ts';

/** What a text for a table of a workbook is read by: its units and money, and the woods that it names. */
export function listContext(book: OpenWorkbook, kind: ListKind, unit?: BareUnit): ListContext {
  return {
    kind,
    units: book.units,
    money: moneySign(book.document().currency ?? 'USD'),
    woods: woodsOf(book),
    ...(unit === undefined ? {} : { unit }),
  };
}

/** The woods that the parts and the stock of a workbook are of, each once, as its cells show them. */
function woodsOf(book: OpenWorkbook): readonly string[] {
  const woods = new Map<string, string>();
  for (const { kind, sheet, header, last } of book.tables()) {
    if (kind !== 'parts' && kind !== 'stock') continue;
    const columns = book.sheet(sheet)?.columns ?? 0;
    const column = Array.from({ length: columns }, (_, i) => i).find((i) => {
      const value = book.value({ sheet, row: header, column: i });
      return value.kind === 'text' && value.text.trim().toLowerCase() === 'material';
    });
    for (let row = header + 1; column !== undefined && row <= last; row += 1) {
      const value = book.value({ sheet, row, column });
      if (value.kind !== 'text' || value.text.trim() === '') continue;
      const wood = value.text.trim();
      if (!woods.has(wood.toLowerCase())) woods.set(wood.toLowerCase(), wood);
    }
  }
  return [...woods.values()];
}
