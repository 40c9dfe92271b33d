import { LIMITS } from '@kerfbook/document';
import type { SheetIn } from '../taking/coming-in.ts';
import { readXmlOf } from '../xml/read.ts';
import { WORDS } from './package.ts';
import { FIXED } from './settings.ts';

const NOTHING: SheetIn['frozen'] = { rows: 0, columns: 0 };
const MOST = 1_000;

/** The lines of each sheet that do not scroll, by its name. */
export function readFrozen(
  bytes: Uint8Array | undefined,
  part: string,
): (sheet: string) => SheetIn['frozen'] {
  const found = new Map<string, Map<string, number>>();
  let table: Map<string, number> | undefined;
  let item: string | undefined;
  let text = '';
  let within = 0;
  if (bytes === undefined) return () => NOTHING;
  readXmlOf(WORDS, bytes, part, {
    open(name, said) {
      if (name === 'config:config-item-map-named') within += 1;
      else if (name === 'config:config-item-map-entry' && within > 0 && found.size < MOST) {
        table = new Map();
        found.set(said['config:name'] ?? '', table);
      } else if (name === 'config:config-item') {
        item = said['config:name'];
        text = '';
      }
    },
    text(piece) {
      if (item !== undefined) text += piece;
    },
    close(name) {
      if (name === 'config:config-item-map-named') within -= 1;
      else if (name === 'config:config-item-map-entry') table = undefined;
      else if (name === 'config:config-item') {
        if (item !== undefined) table?.set(item, Number(text));
        item = undefined;
      }
    },
  });
  return (sheet) => {
    const said = found.get(sheet);
    if (said === undefined) return NOTHING;
    const lines = (mode: string, position: string): number => {
      const count = said.get(mode) === FIXED ? Math.trunc(said.get(position) ?? 0) : 0;
      return count > 0 ? Math.min(LIMITS.frozen, count) : 0;
    };
    return {
      rows: lines('VerticalSplitMode', 'VerticalSplitPosition'),
      columns: lines('HorizontalSplitMode', 'HorizontalSplitPosition'),
    };
  };
}
