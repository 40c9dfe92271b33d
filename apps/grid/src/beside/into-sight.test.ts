// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { holdInSight } from './into-sight.ts';

beforeEach(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe(): void {}
      disconnect(): void {}
    },
  );
  document.body.innerHTML =
    '<div class="ag-cell" tabindex="-1"></div><button></button><li tabindex="-1"></li>';
});
afterEach(() => vi.unstubAllGlobals());

function element(selector: string): HTMLElement {
  const found = document.querySelector<HTMLElement>(selector);
  if (found === null) throw new Error(`there is no ${selector}`);
  return found;
}

describe('a check that was asked for', () => {
  it('has the focus back from a cell that was drawn later', () => {
    const end = holdInSight(element('li'));
    expect(document.activeElement).toBe(element('li'));
    element('.ag-cell').focus();
    expect(document.activeElement).toBe(element('li'));
    // Any other control is where somebody went.
    element('button').focus();
    expect(document.activeElement).toBe(element('button'));
    end();
  });

  it.each(['pointerdown', 'wheel', 'keydown'])('lets it go once the maker goes on (%s)', (does) => {
    holdInSight(element('li'));
    window.dispatchEvent(new Event(does));
    element('.ag-cell').focus();
    expect(document.activeElement).toBe(element('.ag-cell'));
  });
});
