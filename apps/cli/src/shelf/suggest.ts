import { differing, newBookId, signedAs } from '@kerfbook/keeping/shelf';
import { Misuse, readArguments } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import {
  CLUB_OPTION,
  carefully,
  clubOf,
  revisionNumber,
  revisionOf,
  Stopped,
  templateOf,
} from './club.ts';
import { goingFrom, noteOf, packedFor, restsOn, toldOf } from './going.ts';

/** `shelf suggest`: to the maker of a template, what a workbook made from it has otherwise. */
export function suggest(args: readonly string[], io: Io): Promise<ExitCode> {
  const { values, positionals } = readArguments(args, {
    ...CLUB_OPTION,
    to: { type: 'string' },
    from: { type: 'string' },
    note: { type: 'string' },
  });
  const { to } = values;
  if (to === undefined) throw new Misuse('--to says which template; it is missing.');
  const { id: template, club: elsewhere } = templateOf(to);
  const note = noteOf(values.note);
  const from = revisionNumber('from', values.from);
  const club = clubOf(values.club, io, elsewhere);
  return carefully(io, async () => {
    const going = await goingFrom('shelf suggest', positionals, io);
    const told = await toldOf(club, template);
    const { title, by } = told.template;
    if (told.mine) {
      throw new Stopped(
        1,
        `"${title}" is your own template. Publish its next revision: kerfbook shelf publish ${going.path} --as ${template}.`,
      );
    }
    const base = restsOn(going, told, from);
    const was = (await revisionOf(club, template, base)).document;
    const made = await packedFor(going.path, signedAs(going.document, was), was.lineage);
    const { changes } = await differing(was, made.document);
    if (changes.length === 0) {
      throw new Stopped(1, `${going.path} has nothing otherwise than revision ${base}.`);
    }
    await club.ask('suggest', {
      params: { template },
      body: { id: newBookId(), base, text: made.packed, note, changes },
    });
    const to = by.gone === true ? 'the keepers of the shelf' : by.name;
    io.out(`Suggested to ${to}: what is otherwise than revision ${base} of "${title}".`);
    return 0;
  });
}
