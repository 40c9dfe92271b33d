import type { Session } from '../session/session.ts';
import { ACTIVITIES, type Activity, type PageName, type Showing, type Tool } from './activity.ts';
import { roundSizes } from './round-sizes.ts';
import { servedByClub } from './served-by-club.ts';

/** Something the app can do that no cell is needed for: in the menu, and found by its words. */
export interface Command {
  readonly says: string;
  readonly does: () => void;
}

/** The ways from a command to what it opens. */
export interface Ways {
  readonly session: Session;
  readonly onActivity: (activity: Activity) => void;
  readonly onPage: (page: PageName) => void;
  readonly onTool: (tool: Tool) => void;
  readonly onShow: (showing: Showing) => void;
  readonly onFunctions: () => void;
  /** The workbook is one that is built in, and nothing of it was changed yet. */
  readonly isUnchanged: () => boolean;
}

/** What the menu holds, in groups. */
export function menuCommands(ways: Ways): readonly (readonly Command[])[] {
  const { session, onPage, onTool, onShow, onFunctions } = ways;
  const { book, mayChange } = session;
  const groups: (readonly Command[])[] = [
    [
      { says: 'Workbooks', does: () => onShow('workbooks') },
      { says: 'Jobs', does: () => onPage('jobs') },
      { says: 'Save as my template', does: () => onShow('saveAs') },
      { says: 'Versions', does: () => onShow('versions') },
      { says: 'Compare', does: () => onShow('compare') },
      { says: 'New in the template', does: () => onShow('renewal') },
      { says: 'My shop', does: () => onShow('shop') },
      { says: 'Send as a link', does: () => onShow('send') },
      { says: 'Open a link', does: () => onShow('link') },
      { says: 'Save for office programs', does: () => onShow('office') },
      ...(servedByClub ? [{ says: 'Publish on the shelf', does: () => onShow('publish') }] : []),
    ],
    [
      { says: 'Days and hours', does: () => onPage('days') },
      { says: 'Charts: the year, the price', does: () => onPage('charts') },
      { says: 'Names', does: () => onTool('names') },
      { says: 'Functions', does: onFunctions },
      { says: 'Find and replace', does: () => onTool('replace') },
      { says: 'Print', does: () => onPage('print') },
      { says: 'Keys', does: () => onTool('keys') },
    ],
  ];
  if (!mayChange) return groups;
  const join: Command = { says: 'Add sheets from a workbook', does: () => onShow('join') };
  const lists: readonly Command[] = [
    { says: 'Parts from a text', does: () => session.ask('parts') },
    { says: 'Boards from a text', does: () => session.ask('stock') },
  ];
  const lock: Command = {
    says: book.locked ? 'Unlock formulas' : 'Lock formulas',
    does: () => void session.apply({ do: 'setBook', set: { locked: book.locked ? null : true } }),
  };
  const to = book.units === 'us' ? 'metric' : 'us';
  const units: Command = {
    says: to === 'metric' ? 'Change to millimeters' : 'Change to inches',
    does: () => {
      const unchanged = ways.isUnchanged();
      const done = session.apply({ do: 'changeUnits', to });
      // What a maker wrote himself is converted exactly; sizes that came along were chosen for inches.
      if (done.ok && to === 'metric' && unchanged) void roundSizes(session);
    },
  };
  return [...groups, book.locked ? [lock] : [join, ...lists, lock, units]];
}

/** All that can be found by its words: the activities and what the menu holds. */
export function allCommands(ways: Ways): readonly Command[] {
  const activities = ACTIVITIES.map(
    ([activity, says]): Command => ({ says, does: () => ways.onActivity(activity) }),
  );
  const { session } = ways;
  const turn: Command = {
    says: session.state.value.formulas === true ? 'Show results' : 'Show formulas',
    does: () => session.showFormulas(),
  };
  return [...activities, ...menuCommands(ways).flat(), turn];
}
