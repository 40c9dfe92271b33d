import type { ListedTemplate } from '@kerfbook/protocol';
import { readArguments } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import { tableText } from '../table-text.ts';
import { CLUB_OPTION, carefully, clubOf } from './club.ts';

const HEADS = ['id', 'title', 'revision', 'by', 'what it is', 'size'];

/** `shelf list`: the templates that have all the words. */
export function list(args: readonly string[], io: Io): Promise<ExitCode> {
  const { values, positionals } = readArguments(args, {
    ...CLUB_OPTION,
    kind: { type: 'string' },
    wood: { type: 'string' },
    all: { type: 'boolean' },
    json: { type: 'boolean' },
  });
  const club = clubOf(values.club, io);
  const { kind, wood } = values;
  const find = positionals.join(' ').trim();
  const about = {
    ...(find === '' ? {} : { find }),
    ...(kind === undefined ? {} : { kind }),
    ...(wood === undefined ? {} : { wood }),
  };
  return carefully(io, async () => {
    const templates: ListedTemplate[] = [];
    let after: string | undefined;
    do {
      const query = after === undefined ? about : { ...about, after };
      const page = await club.ask('browse', { query });
      templates.push(...page.templates);
      after = page.next;
    } while (after !== undefined && values.all === true);
    if (values.json === true) {
      io.out(JSON.stringify({ templates, more: after !== undefined }));
      return 0;
    }
    if (templates.length === 0) {
      io.out('The shelf has no such template.');
      return 0;
    }
    for (const line of tableText([HEADS, ...templates.map(cells)])) io.out(line);
    if (after !== undefined) io.err('There are more. Add words, or --all to see them all.');
    return 0;
  });
}

const cells = ({ id, title, revision, by, card }: ListedTemplate): string[] => [
  id,
  title,
  String(revision),
  by.gone === true ? '' : by.name,
  card.kind ?? '',
  card.size ?? '',
];
