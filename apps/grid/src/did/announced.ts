import type { DidLine, Digest, Since } from './digest.ts';
import { NOTHING } from './read-beside.ts';
import { type Calls, turnedSays, typedOver } from './state-words.ts';

/** So many results are read out; the rest is counted. */
const READ = 3;

/** What a change did, for the ear: one sentence of what was changed, a few results, checks that turned. */
export function announced(digest: Digest, book: Calls, addition = false): string {
  const { since, says, lines, turned, more } = digest;
  if (addition && since !== undefined)
    return [since.says.replace(':', '.'), ...parts(since, book)].join(' ');
  const others = more + Math.max(0, lines.length - READ);
  const counted = others === 0 ? [] : [`${others} more ${others === 1 ? 'result' : 'results'}.`];
  const over = digest.overridden.length === 0 ? [] : [`${typedOver(digest)}.`];
  return [
    `${says.replace('→', 'to')}.`,
    ...over,
    ...parts({ lines, turned }, book),
    // That nothing moved is what one expects of folded rows; what reads the cells besides is news.
    ...(digest.nothing === undefined || digest.nothing === NOTHING ? [] : [digest.nothing]),
    ...counted,
  ].join(' ');
}

function parts({ lines, turned }: Pick<Since, 'lines' | 'turned'>, book: Calls): readonly string[] {
  const read = lines.slice(0, READ).map(inWords);
  if (turned.length === 0) return read;
  const each = turned.slice(0, READ).map((one) => turnedSays(one, book));
  const count = `${turned.length} ${turned.length === 1 ? 'check' : 'checks'} changed`;
  return [...read, `${count}. ${each.map((one) => one.replace(/\.?$/, '.')).join(' ')}`];
}

const inWords = ({ label, was, is, without }: DidLine): string =>
  `${label} ${was} to ${is}${without === undefined ? '' : `, ${without}`}.`;
