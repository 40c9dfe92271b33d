import type { Session } from '../session/session.ts';
import { type Clipboard, copySelected, linesOf } from './clipboard.ts';
import { selectedOnSheet } from './commands.ts';
import { toTable, toTabs } from './tabular.ts';

/**
 * Copies or cuts without the key. The browser hands over its clipboard only with an event of its own,
 * and sends that event only where something could be copied, which `beforecopy` is asked for.
 */
export function copyByCommand(session: Session, how: 'copy' | 'cut' | 'seen'): void {
  const could = (event: Event): void => event.preventDefault();
  const hand = (event: ClipboardEvent): void => {
    if (event.clipboardData === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (how === 'seen') copySeen(session, event.clipboardData);
    else copySelected(session, event.clipboardData, how === 'cut');
  };
  document.addEventListener('beforecopy', could, true);
  document.addEventListener('copy', hand, true);
  const handed = document.execCommand('copy');
  document.removeEventListener('copy', hand, true);
  document.removeEventListener('beforecopy', could, true);
  if (!handed)
    session.say('The browser does not let the menu copy. Use the keys: Ctrl and C, or X.');
}

/** Puts what can be seen of the selection on the clipboard, as it shows: hidden lines stay (G44). */
function copySeen(session: Session, clipboard: Clipboard): void {
  const [area] = selectedOnSheet(session);
  if (area === undefined) return;
  const { hidden = [], hiddenRows = [] } = session.book.sheet(session.at.sheet) ?? {};
  const lines = linesOf(session, area)
    .filter((_, i) => !hiddenRows.includes(area.top + i))
    .map((line) => line.filter((_, i) => !hidden.includes(area.left + i)));
  clipboard.setData('text/plain', toTabs(lines));
  clipboard.setData('text/html', toTable(lines));
  session.copied(undefined);
}
