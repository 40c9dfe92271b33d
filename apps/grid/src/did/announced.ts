import type { DidLine, Digest, Since } from './digest.ts';
import { STATE_WORDS } from './state-words.ts';

/** So many results are read out; the rest is counted. */
const READ = 3;

/** What a change did, for the ear: one sentence of what was changed, a few results, checks that turned. */
export function announced(digest: Digest, addition = false): string {
  const { since, says, lines, turned, more } = digest;
  if (addition && since !== undefined)
    return [since.says.replace(':', '.'), ...parts(since)].join(' ');
  const others = more + Math.max(0, lines.length - READ);
  const counted = others === 0 ? [] : [`${others} more ${others === 1 ? 'result' : 'results'}.`];
  return [`${says.replace('→', 'to')}.`, ...parts({ lines, turned }), ...counted].join(' ');
}

function parts({ lines, turned }: Pick<Since, 'lines' | 'turned'>): readonly string[] {
  const read = lines.slice(0, READ).map(inWords);
  if (turned.length === 0) return read;
  const names = turned.slice(0, READ).map(({ is }) => `${is.name}: ${STATE_WORDS[is.state]}`);
  const count = `${turned.length} ${turned.length === 1 ? 'check' : 'checks'} turned`;
  return [...read, `${count}: ${names.join('; ')}.`];
}

const inWords = ({ label, was, is }: DidLine): string => `${label} ${was} to ${is}.`;
