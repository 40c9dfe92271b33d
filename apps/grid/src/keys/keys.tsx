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
      ['Arrows', 'one cell on'],
      [`${MOD} + arrows`, 'to the edge of what is filled'],
      ['Home, End', 'to the first and the last used cell of the row'],
      [`${MOD} + Home, End`, 'to the first and the last used cell of the sheet'],
      ['Page Up, Page Down', 'a screenful'],
      ['Alt + Page Up, Page Down', 'to the sheet before and the next one'],
      ['Tab, Enter', 'to the right, down; Enter after Tabs goes back to where they began'],
      ['F6', 'out of the grid and on through the page; with Shift back'],
    ],
  ],
  [
    'Selecting',
    [
      ['Shift + any of these', 'selects on the way'],
      [`${MOD} + A`, 'what hangs together; again, the whole sheet'],
      [`${MOD} + Space`, 'whole columns'],
      ['Shift + Space', 'whole rows'],
      ['Escape', 'the current cell alone'],
    ],
  ],
  [
    'Writing',
    [
      ['Any letter', 'begins anew'],
      ['F2, Enter', 'goes on with what stands there; a list opens with Alt + down'],
      ['Escape', 'leaves it as it was'],
      [`${MOD} + Enter`, 'into every selected cell'],
      ['F4', 'turns a reference: B3, $B$3, B$3, $B3'],
      ['Delete', 'empties what is selected'],
    ],
  ],
  [
    'Changing',
    [
      [`${MOD} + Z, ${MOD} + Y`, 'undo, redo'],
      [`${MOD} + C, X, V`, 'copy, cut, paste; with Shift and V only values'],
      [`${MOD} + D, R`, 'fill down, fill to the right'],
      ['Alt + Insert, Delete', 'puts in or deletes rows; columns where whole columns are selected'],
      [`${MOD} + F`, 'find and replace'],
      [`${MOD} + P`, 'on paper: every page as it comes out'],
      [`${MOD} + B, I`, 'bold, italic'],
      [`${MOD} + \``, 'formulas instead of results, and back'],
      ['Shift + F10', 'the menu of what is selected'],
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
