import type { Command } from './command.ts';

/** What stands behind all that asks a club: its token is never an argument, which whoever lists processes could read. */
const CLUB = '[--club ADDRESS]';
const WHERE =
  'the address of the club is in --club or KERFBOOK_CLUB, your token in KERFBOOK_TOKEN (an argument would stand in the list of processes)';

/** `shelf …`: the templates of a club. What asks it is loaded only then. */
export const shelfCommands: readonly Command[] = [
  {
    name: 'shelf list',
    usage: `shelf list [WORDS] [--kind KIND] [--wood WOOD] [--all] [--json] ${CLUB}`,
    does: `lists the templates on a club's shelf that have all the words, the first 48 of them; --all goes on to the last; ${WHERE}`,
    run: async (args, io) => (await import('../shelf/list.ts')).list(args, io),
  },
  {
    name: 'shelf get',
    usage: `shelf get ID|ADDRESS --out PATH [--revision N] [--force] ${CLUB}`,
    does: 'writes a copy of a template of the shelf to a file; the copy knows which revision it was made from',
    run: async (args, io) => (await import('../shelf/get.ts')).get(args, io),
  },
  {
    name: 'shelf publish',
    usage: `shelf publish FILE [--license LICENSE] [--kind KIND] [--as ID [--from N]] [--note WORDS] [--out PATH [--force]] [--json] ${CLUB}`,
    does: 'publishes a workbook as a new template, or with --as as the next revision of your own; --from is the revision it was made from, where it does not say so; --out writes it as it rests on what was published; exit code 1 where the club does not take it',
    run: async (args, io) => (await import('../shelf/publish.ts')).publish(args, io),
  },
  {
    name: 'shelf suggest',
    usage: `shelf suggest FILE --to ID [--from N] [--note WORDS] ${CLUB}`,
    does: 'suggests to the maker of a template what a workbook made from it has otherwise; exit code 1 where the club does not take it',
    run: async (args, io) => (await import('../shelf/suggest.ts')).suggest(args, io),
  },
];
