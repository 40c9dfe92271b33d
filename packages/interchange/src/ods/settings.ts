import type { FlatSheet } from '../flat/flat-book.ts';
import { element, escaped } from '../xml/write.ts';
import { spaces, VERSION } from './package.ts';

/** How a line that does not scroll is said: 2 is fixed, 0 is none. */
export const FIXED = 2;

/**
 * The part that says which lines do not scroll and which sheet is in front. The format leaves the words to programs
 * (OpenDocument 1.3 part 3, 3.10); these are the ones that readers share.
 */
export function settingsPart(sheets: readonly FlatSheet[]): string {
  const shown = sheets.find(({ isHidden }) => !isHidden) ?? sheets[0];
  const tables = sheets.flatMap(({ name, frozen: { rows, columns } }) =>
    rows + columns === 0
      ? []
      : element(
          'config:config-item-map-entry',
          { 'config:name': name },
          item('HorizontalSplitMode', 'short', columns > 0 ? FIXED : 0) +
            item('VerticalSplitMode', 'short', rows > 0 ? FIXED : 0) +
            item('HorizontalSplitPosition', 'int', columns) +
            item('VerticalSplitPosition', 'int', rows) +
            item('ActiveSplitRange', 'short', rows > 0 && columns > 0 ? 3 : columns > 0 ? 1 : 2) +
            item('PositionRight', 'int', columns) +
            item('PositionBottom', 'int', rows),
        ),
  );
  const view =
    item('ViewId', 'string', 'view1') +
    (tables.length === 0
      ? ''
      : element('config:config-item-map-named', { 'config:name': 'Tables' }, tables.join(''))) +
    item('ActiveTable', 'string', shown?.name ?? '');
  return element(
    'office:document-settings',
    {
      ...spaces('office', 'config'),
      'xmlns:ooo': 'http://openoffice.org/2004/office',
      'office:version': VERSION,
    },
    element(
      'office:settings',
      {},
      element(
        'config:config-item-set',
        { 'config:name': 'ooo:view-settings' },
        element(
          'config:config-item-map-indexed',
          { 'config:name': 'Views' },
          element('config:config-item-map-entry', {}, view),
        ),
      ),
    ),
  );
}

const item = (name: string, type: string, value: string | number): string =>
  element(
    'config:config-item',
    { 'config:name': name, 'config:type': type },
    escaped(String(value)),
  );
