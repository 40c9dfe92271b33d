import { readXml } from '../xml/read.ts';
import type { Archive } from '../zip/read.ts';

/** What a part refers to. */
export interface Relation {
  readonly id: string;
  /** The last word of its type: `worksheet`, `comments`, `hyperlink`. */
  readonly kind: string;
  /** A part of the file, or an address outside of it. */
  readonly target: string;
  readonly isOutside: boolean;
}

/** What a part refers to, in the order of the file; none where nothing is said. */
export function relationsOf(archive: Archive, part: string): readonly Relation[] {
  const slash = part.lastIndexOf('/');
  const folder = part.slice(0, slash + 1);
  const name = `${folder}_rels/${part.slice(slash + 1)}.rels`;
  const bytes = archive.bytes(name);
  const found: Relation[] = [];
  if (bytes === undefined) return found;
  readXml(bytes, name, {
    open(tag, said) {
      if (tag !== 'Relationship') return;
      const { Id: id, Type: type = '', Target: target, TargetMode: mode } = said;
      if (id === undefined || target === undefined) return;
      const isOutside = mode === 'External';
      found.push({
        id,
        kind: type.slice(type.lastIndexOf('/') + 1),
        target: isOutside ? target : resolved(folder, target),
        isOutside,
      });
    },
  });
  return found;
}

/** A target as the name of a part: `../comments1.xml` from `xl/worksheets/` is `xl/comments1.xml`. */
function resolved(folder: string, target: string): string {
  const whole = target.startsWith('/') ? target.slice(1) : `${folder}${target}`;
  const parts: string[] = [];
  for (const part of whole.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.' && part !== '') parts.push(part);
  }
  return parts.join('/');
}
