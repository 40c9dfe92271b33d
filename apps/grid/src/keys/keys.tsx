import { Dialog } from '../library/dialog.tsx';
import '../reference/functions.css';

const MOD = /Mac|iP/.test(navigator.platform) ? '⌘' : 'Ctrl';

/** Every key that does something of its own, by what a maker wants to do. */
const KEYS: readonly (readonly [
  task: string,
  keys: readonly (readonly [key: string, says: string])[],
])[] = [
  [
    'Moving',
    [
      ['Arrows', 'one cell'],
      [`${MOD} + arrows`, 'to the edge of the filled cells'],
      ['Home, End', 'to the first and the last used cell of the row'],
      [`${MOD} + Home, End`, 'to the first and the last used cell of the sheet'],
      ['Page Up, Page Down', 'a screenful'],
      ['Alt + Page Up, Page Down', 'to the sheet before and the next one'],
      ['Tab, Enter', 'to the right, down; Enter after Tabs goes back to where they began'],
      ['F6', 'from the grid to the next part of the page; with Shift, back'],
    ],
  ],
  [
    'Selecting',
    [
      ['Shift + any of these', 'selects as you go'],
      [`${MOD} + A`, 'the block of filled cells; again, the whole sheet'],
      [`${MOD} + Space`, 'whole columns'],
      ['Shift + Space', 'whole rows'],
      ['Escape', 'the current cell alone'],
    ],
  ],
  [
    'Writing',
    [
      ['Any letter', 'replaces what is there'],
      ['F2, Enter', 'edits what is there'],
      [
        'F2, Enter, Alt + down',
        'opens the list of a cell with choices: arrows choose, letters find, Enter or Tab takes',
      ],
      [
        'Alt + up, down',
        'pulls a number with a range by a step, with Shift by a wide one; a pause keeps it, Escape takes it back',
      ],
      ['Escape', 'cancels the entry'],
      [`${MOD} + Enter`, 'enters it in every selected cell'],
      ['F4', 'changes a reference: B3, $B$3, B$3, $B3'],
      ['Alt + =', 'writes the sum of the numbers above or to the left; of a selection, under it'],
      [`${MOD} + ;`, 'enters today'],
      ["'", 'in front of an entry keeps it as text'],
      ['Delete', 'clears what is selected'],
    ],
  ],
  [
    'Changing',
    [
      [`${MOD} + Z, ${MOD} + Y`, 'undo, redo'],
      [`${MOD} + C, X, V`, 'copy, cut, paste; with Shift and V only values'],
      [`${MOD} + D, R`, 'fill down, fill to the right'],
      ['Alt + Insert, Delete', 'inserts or deletes rows; columns where whole columns are selected'],
      [
        `${MOD} + plus, minus`,
        'the same where whole rows or columns are selected; otherwise the page zooms',
      ],
      [`${MOD} + F`, 'find and replace'],
      [`${MOD} + P`, 'print, with every page shown first'],
      [`${MOD} + B, I`, 'bold, italic'],
      [`${MOD} + \``, 'formulas instead of results, and back'],
      ['Shift + F10', 'the menu of what is selected: cells, whole rows or columns, a sheet'],
    ],
  ],
  [
    'Plan for others',
    [
      ['Arrows', 'through the list of steps'],
      ['Alt + up, down', 'moves the chosen step'],
      ['Delete', 'deletes it, in the list'],
      ['{', 'in a text: offers the named cells'],
      [`${MOD} + Enter`, 'enters a text of several lines, as leaving it does'],
    ],
  ],
  [
    'With the pointer',
    [
      ['Right button, or held', 'the menu of cells, of a head, of a sheet'],
      ['Double click on the edge of a head', 'fits the column to its widest words'],
      ['Double click on the square', 'fills down as far as the column beside it goes'],
      ['Edge of what is selected', 'drags it elsewhere; with Ctrl or Alt, a copy of it'],
    ],
  ],
];

/** The keys, to look up. */
export default function Keys({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title="Keys" onClose={onClose}>
      {KEYS.map(([task, keys]) => (
        <section key={task} className="function-task">
          <h3>{task}</h3>
          <dl className="function-arguments">
            {keys.map(([key, says]) => (
              <div key={key}>
                <dt>{key}</dt>
                <dd>{says}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </Dialog>
  );
}
