import { copyForFile } from '@kerfbook/keeping/shelf';
import { saveText } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import { CLUB_OPTION, carefully, clubOf, revisionNumber, revisionOf, templateOf } from './club.ts';

/** `shelf get`: a copy that knows which revision it was made from, and has that along. */
export function get(args: readonly string[], io: Io): Promise<ExitCode> {
  const { values, positionals } = readArguments(args, {
    ...CLUB_OPTION,
    out: { type: 'string' },
    revision: { type: 'string' },
    force: { type: 'boolean' },
  });
  const { out } = values;
  if (out === undefined || out === '') {
    throw new Misuse('--out says where the file goes; it is missing.');
  }
  const [which, ...more] = positionals;
  if (which === undefined || more.length > 0) {
    throw new Misuse(`shelf get takes one template. It got ${positionals.length}.`);
  }
  const wanted = revisionNumber('revision', values.revision);
  const { id, club: elsewhere } = templateOf(which);
  const club = clubOf(values.club, io, elsewhere);
  return carefully(io, async () => {
    const { template } = await club.ask('template', { params: { template: id } });
    const revision = wanted ?? template.revision;
    const { document, text } = await revisionOf(club, id, revision);
    const { title } = template;
    const copy = await copyForFile(document, { template: id, title, revision, text });
    const trouble = await io.write(out, saveText(copy), values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    io.out(`${out}: "${title}", revision ${revision} of ${template.revision}.`);
    return 0;
  });
}
