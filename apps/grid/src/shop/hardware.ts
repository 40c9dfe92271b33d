import { fastenersByKind } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { factsOf } from './facts.ts';
import { capital, numberOf, panelOf, shownOf } from './words.ts';

/** What it is and how much of it. */
type Line = readonly [what: string, much: string];

/** Kinds of fasteners as they are bought; of any other the maker's own word. */
const KINDS: ReadonlyMap<string, (panel: string) => string> = new Map([
  ['button', (panel: string) => `Buttons for the ${panel}, with screws`],
  ['clip', (panel: string) => `Clips for the ${panel}, with screws`],
  ['figure-8', (panel: string) => `Figure-8s for the ${panel}, with screws`],
  ['slotted screw', (panel: string) => `Screws for the slots under the ${panel}`],
]);

/** What is bought beside boards, each by the name it is asked for in a shop. */
export function hardwareLines(book: OpenWorkbook): readonly Line[] {
  const slides = slidesSay(book);
  return factsOf('buying-list').flatMap(([name, says]): readonly Line[] => {
    const shown = shownOf(book, name);
    // Of what is none, none is bought.
    if (shown === undefined || numberOf(book, name) === 0) return [];
    switch (name) {
      case 'fastener_count':
        return fastenerLines(book) ?? [[fastenersSay(book), shown]];
      case 'pocket_screw_count':
        return [[pocketScrews(book), shown]];
      case 'slide_pairs':
        return [[slides, shown]];
      case 'finish_cans':
        return [[cansSay(book, says), shown]];
      default:
        return [[says, shown]];
    }
  });
}

/** What they are called where no kinds are told: screws alone come with no others. */
function fastenersSay(book: OpenWorkbook): string {
  const cell = book.named('fastener_count');
  const own = cell === undefined ? '' : book.labelOf(cell.at);
  return /screw/i.test(own) ? own : `${capital(panelOf(book))} fasteners, with screws`;
}

/** Slides by the pair, with their length where the workbook says it. */
function slidesSay(book: OpenWorkbook): string {
  const length = shownOf(book, 'slide_length');
  return `Drawer slides, ${length === undefined ? '' : `${length} long, `}pairs`;
}

/** Pocket screws with their length, where the workbook says it. */
export function pocketScrews(book: OpenWorkbook): string {
  const length = shownOf(book, 'pocket_screw');
  return length === undefined ? 'Pocket screws' : `Pocket screws, ${length} long`;
}

/** A line for each kind; none where they do not come to what the workbook counts. */
function fastenerLines(book: OpenWorkbook): readonly Line[] | undefined {
  const kinds = fastenersByKind(book);
  const sum = [...kinds.values()].reduce((all, count) => all + count, 0);
  if (sum === 0 || sum !== numberOf(book, 'fastener_count')) return undefined;
  const panel = panelOf(book);
  return [...kinds].map(([kind, count]) => [
    KINDS.get(kind)?.(panel) ?? `${capital(kind)}, for the ${panel}`,
    String(count),
  ]);
}

function cansSay(book: OpenWorkbook, says: string): string {
  const [finish, size] = [shownOf(book, 'finish'), shownOf(book, 'can_size')];
  const holds = size === undefined ? '' : `, ${size} each`;
  return `${finish === undefined ? says : `${capital(finish)}, cans`}${holds}`;
}
