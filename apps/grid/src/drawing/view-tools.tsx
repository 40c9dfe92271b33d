import type { OpenWorkbook } from '@kerfbook/workbook';
import { type FocusEvent, type ReactNode, useSyncExternalStore } from 'react';
import { isPhone, onTurned } from '../session/on-screen.ts';
import { seasonsOf } from '../shop/words.ts';
import { CHOICES, type Shown, unturned, withExploded, withSeasons } from './shown.ts';
import type { StageHandle } from './stage.tsx';
import { useTwoRows } from './two-rows.ts';
import { STEP } from './zoom.ts';

interface ViewToolsProps {
  readonly book: OpenWorkbook;
  readonly shown: Shown;
  readonly stages: ReadonlySet<StageHandle>;
  readonly onShow: (next: Shown) => void;
  /** Left out where all views have room beside each other. */
  readonly oneAtATime?: boolean;
  /** True: zooming is said in words where they have room; else by its signs. */
  readonly large: boolean;
  /** What stands beside the choice of views. */
  readonly children?: ReactNode;
}

/** Which view, exploded, the seasons, and zooming: the same beside the grid and large. */
export function ViewTools(props: ViewToolsProps) {
  const { book, shown, stages, onShow, oneAtATime = false, large, children } = props;
  const [tools, folded] = useTwoRows(!large);
  const inWords = !useSyncExternalStore(onTurned, isPhone) && large;
  const all = (act: (stage: StageHandle) => void) => (): void => {
    for (const stage of stages) act(stage);
  };
  const zoom = (by: number) => all((stage) => stage.zoom(by));
  const fit = all((stage) => stage.fit());
  const reset = (): void => {
    fit();
    onShow(unturned(shown));
  };
  const rare = (
    <>
      {seasonsOf(book) === undefined ? null : (
        <label className="view-tick" title="How far the top moves with the seasons">
          <input
            type="checkbox"
            checked={shown.seasons}
            onChange={(event) => onShow(withSeasons(shown, event.target.checked, large))}
          />{' '}
          Seasons
        </label>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a row everywhere. */}
      <div className="view-zoom" role="group" aria-label="Zoom">
        {inWords ? (
          <>
            <button type="button" className="button" onClick={zoom(STEP)}>
              Zoom in
            </button>
            <button type="button" className="button" onClick={zoom(1 / STEP)}>
              Zoom out
            </button>
          </>
        ) : (
          <>
            <button
              type="button"
              className="button"
              title="Zoom in"
              aria-label="Zoom in"
              onClick={zoom(STEP)}
            >
              +
            </button>
            <button
              type="button"
              className="button"
              title="Zoom out"
              aria-label="Zoom out"
              onClick={zoom(1 / STEP)}
            >
              −
            </button>
          </>
        )}
        <button type="button" className="button" onClick={fit}>
          Fit
        </button>
        <button type="button" className="button" title="Turn back and fit" onClick={reset}>
          Reset
        </button>
      </div>
    </>
  );
  return (
    <div ref={tools} className="view-tools">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a row everywhere. */}
      <div className="view-choices" role="group" aria-label="View">
        {CHOICES.filter(([choice]) => !oneAtATime || choice !== 'all').map(([choice, says]) => (
          <button
            key={choice}
            type="button"
            className="button"
            aria-label={choice === 'all' ? 'All views' : `${says} view`}
            aria-pressed={shown.choice === choice}
            onClick={() => onShow({ ...shown, choice })}
          >
            {says}
          </button>
        ))}
      </div>
      {folded ? (
        <details className="view-more" onBlur={closeLeft}>
          <summary className="button">More</summary>
          <div>{rare}</div>
        </details>
      ) : null}
      {children}
      <label className="view-tick">
        <input
          type="checkbox"
          checked={shown.exploded}
          onChange={(event) => onShow(withExploded(shown, event.target.checked))}
        />{' '}
        Exploded
      </label>
      {folded ? null : rare}
    </div>
  );
}

/** What was opened for one press is closed once the keys or the pointer are elsewhere. */
function closeLeft({ currentTarget, relatedTarget }: FocusEvent<HTMLDetailsElement>): void {
  if (relatedTarget !== null && !currentTarget.contains(relatedTarget)) currentTarget.open = false;
}
