import type { Bookcase } from '@kerfbook/keeping';
import { DecimalMarkChoice } from '../library/decimal-mark-choice.tsx';
import { Popover } from '../library/popover.tsx';
import { ThemeChoice } from '../library/theme-choice.tsx';
import type { Command } from '../page/commands.ts';

interface RareMenuProps {
  readonly bookcase: Bookcase;
  readonly commands: readonly (readonly Command[])[];
  readonly onClose: () => void;
}

/** What is rarely needed, at the right end of the top line: a press beside it or Escape closes it. */
export default function RareMenu({ bookcase, commands, onClose }: RareMenuProps) {
  return (
    <Popover className="rare-menu" label="Menu" onClose={onClose}>
      {commands.map((group) => (
        <div key={group[0]?.says} className="menu-group">
          {group.map(({ says, does }) => (
            <button
              key={says}
              type="button"
              onClick={() => {
                onClose();
                does();
              }}
            >
              {says}
            </button>
          ))}
        </div>
      ))}
      <div className="menu-choices">
        <ThemeChoice store={bookcase.store} />
        <DecimalMarkChoice store={bookcase.store} />
      </div>
    </Popover>
  );
}
