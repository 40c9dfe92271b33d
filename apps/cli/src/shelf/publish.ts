import { bookCard } from '@kerfbook/drawing';
import { shelfId } from '@kerfbook/keeping';
import {
  cardForShelf,
  copyForFile,
  differing,
  newBookId,
  signedAs,
  signedBy,
} from '@kerfbook/keeping/shelf';
import { type AnswerOf, LICENCES, type Licence } from '@kerfbook/protocol';
import { type BookDocument, saveText, Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import {
  CLUB_OPTION,
  type Club,
  carefully,
  clubOf,
  revisionNumber,
  revisionOf,
  Stopped,
  templateOf,
  unknownToken,
} from './club.ts';
import { type Going, goingFrom, noteOf, packedFor, restsOn, toldOf } from './going.ts';

const LICENCE_KEYS = Object.keys(LICENCES) as readonly Licence[];

/** What was published, and the text it rests on from then on. */
interface Published {
  readonly id: string;
  readonly title: string;
  readonly revision: number;
  readonly text: string;
}

interface Said {
  readonly note: string;
  readonly kind: string | undefined;
}

/** `shelf publish`: a new template, or the next revision of one's own. */
export function publish(args: readonly string[], io: Io): Promise<ExitCode> {
  const { values, positionals } = readArguments(args, {
    ...CLUB_OPTION,
    as: { type: 'string' },
    from: { type: 'string' },
    license: { type: 'string' },
    kind: { type: 'string' },
    note: { type: 'string' },
    out: { type: 'string' },
    force: { type: 'boolean' },
    json: { type: 'boolean' },
  });
  const { as, license, out } = values;
  const from = revisionNumber('from', values.from);
  const said: Said = { note: noteOf(values.note), kind: values.kind?.trim() };
  const next = as === undefined ? undefined : templateOf(as);
  if (next === undefined && from !== undefined) {
    throw new Misuse('--from goes with --as: a new template follows no revision.');
  }
  if (next !== undefined && license !== undefined) {
    throw new Misuse('A revision has the license of its template. Leave --license away.');
  }
  const licence = license === undefined ? undefined : licenceOf(license);
  const club = clubOf(values.club, io, next?.club);
  return carefully(io, async () => {
    const going = await goingFrom('shelf publish', positionals, io);
    const done =
      next === undefined
        ? await publishNew(club, going, said, licence ?? ownLicence(going))
        : await publishNext(club, going, said, { id: next.id, from });
    const { id, title, revision } = done;
    const about = { template: id, title, revision, text: done.text };
    if (values.json === true) io.out(JSON.stringify({ id, title, revision }));
    else io.out(`Published "${title}" on the shelf as revision ${revision}: ${id}`);
    if (out === undefined) return 0;
    const copy = saveText(await copyForFile(going.document, about));
    const trouble = await io.write(out, copy, values.force === true);
    if (trouble === undefined) return 0;
    io.err(trouble);
    return 2;
  });
}

function licenceOf(text: string): Licence {
  const found = LICENCE_KEYS.find((key) => key === text.trim().toLowerCase());
  if (found !== undefined) return found;
  throw new Misuse(`There is no license "${text}" on the shelf. It knows ${known()}.`);
}

const known = (): string =>
  LICENCE_KEYS.map((key) => `${key} (${LICENCES[key].replace(/^CC[^:]*: /, '')})`).join('; ');

/** The license that a workbook states itself, where the shelf has it. */
function ownLicence({ path, document: { licence } }: Going): Licence {
  const found = LICENCE_KEYS.find((key) => key === licence?.toLowerCase());
  if (found !== undefined) return found;
  throw new Misuse(
    `${path} states no license of the shelf. Say with --license what others may do with it: ${known()}.`,
  );
}

async function publishNew(
  club: Club,
  going: Going,
  said: Said,
  licence: Licence,
): Promise<Published> {
  const { path, document } = going;
  const { me } = await club.ask('here', {});
  if (me === undefined) throw unknownToken();
  const { title, lineage } = document;
  const origin = await madeFrom(club, going);
  const { text, sent } = await editionOf(
    path,
    signedBy(document, { by: me.name, title, licence }),
    lineage,
    said.kind ?? '',
  );
  const { id, revision } = await club.ask('publish', {
    body: { id: newBookId(), ...sent, note: said.note, changes: [], licence, ...origin },
  });
  return { id, title, revision, text };
}

/** The template of the shelf that a workbook came from, where it is still there. */
async function madeFrom(
  club: Club,
  { path, document: { lineage } }: Going,
): Promise<{ readonly from?: { readonly id: string; readonly revision: number } }> {
  const id = shelfId(lineage?.key);
  if (id === undefined || lineage === undefined) return {};
  const told = await thereOf(club, id);
  if (told === undefined) return {};
  if (told.mine) {
    throw new Misuse(
      `${path} rests on your own template "${told.template.title}". Add --as ${id} to publish its next revision.`,
    );
  }
  return { from: { id, revision: lineage.revision } };
}

async function thereOf(club: Club, id: string): Promise<AnswerOf<'template'> | undefined> {
  try {
    return await toldOf(club, id);
  } catch (error) {
    if (error instanceof Stopped && error.refused === 'notThere') return undefined;
    throw error;
  }
}

async function publishNext(
  club: Club,
  going: Going,
  said: Said,
  { id, from }: { readonly id: string; readonly from: number | undefined },
): Promise<Published> {
  const { path, document } = going;
  const told = await toldOf(club, id);
  const { template } = told;
  if (!told.mine) {
    throw new Stopped(
      1,
      `"${template.title}" is a template of another member. Suggest what you changed: kerfbook shelf suggest ${path} --to ${id}.`,
    );
  }
  const parent = restsOn(going, told, from);
  if (parent !== template.revision) {
    throw new Stopped(
      1,
      `Revision ${template.revision} stands on the shelf, and ${path} rests on revision ${parent}. Get both, merge them with yours, then publish.`,
    );
  }
  const base = await revisionOf(club, id, parent);
  const { title } = document;
  const next = await editionOf(
    path,
    { ...signedAs(document, base.document), title },
    base.document.lineage,
    said.kind ?? template.card.kind ?? '',
  );
  if (next.text === base.text) {
    throw new Stopped(1, `${path} has nothing otherwise than revision ${parent}.`);
  }
  const { changes } = await differing(base.document, next.document);
  const { revision } = await club.ask('publishRevision', {
    params: { template: id },
    body: { parent, ...next.sent, note: said.note, changes },
  });
  return { id, title, revision, text: next.text };
}

/** All that goes to the shelf of a workbook but a picture: there is nothing here that draws in dots. */
async function editionOf(
  path: string,
  document: BookDocument,
  lineage: BookDocument['lineage'],
  kind: string,
) {
  const made = await packedFor(path, document, lineage);
  const { card, longest } = bookCard(Workbook.open(made.document));
  const facts = longest === undefined ? card : { ...card, longest };
  const sent = { text: made.packed, card: cardForShelf(facts, kind) };
  return { text: made.text, document: made.document, sent };
}
