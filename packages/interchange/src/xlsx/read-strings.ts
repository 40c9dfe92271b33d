import { Unreadable } from '../unreadable.ts';
import { readXml } from '../xml/read.ts';
import { unspelled } from '../xml/write.ts';

const MOST = 2_000_000;

/** Words that cells share, by their place. Runs of one text are joined; how to pronounce them is left out. */
export function readStrings(bytes: Uint8Array, part: string): readonly string[] {
  const found: string[] = [];
  let text = '';
  let isText = false;
  let beside = 0;
  readXml(bytes, part, {
    open(name) {
      if (name === 'si') text = '';
      else if (name === 'rPh') beside += 1;
      else if (name === 't') isText = beside === 0;
    },
    text(piece) {
      if (isText) text += piece;
    },
    close(name) {
      if (name === 't') isText = false;
      else if (name === 'rPh') beside -= 1;
      else if (name === 'si') {
        if (found.length >= MOST)
          throw new Unreadable(`The file has more than ${MOST} texts; it is not opened.`);
        found.push(unspelled(text));
      }
    },
  });
  return found;
}
