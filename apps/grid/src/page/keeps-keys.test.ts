// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keysToCells } from './keeps-keys.ts';

const twoFrames = () =>
  new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));

describe('the keys of a workbook that was opened', () => {
  const focusGrid = vi.fn();
  beforeEach(() => {
    focusGrid.mockClear();
    document.body.innerHTML = '<input><button>Open</button>';
  });
  afterEach(() => {
    document.body.innerHTML = '';
  });

  it('go to its cells', async () => {
    document.querySelector('button')?.focus();
    keysToCells({ current: { focusGrid } });
    await twoFrames();
    expect(focusGrid).toHaveBeenCalledOnce();
  });

  it('go to a cell that comes some frames later', async () => {
    const cell = document.createElement('div');
    cell.tabIndex = -1;
    let asked = 0;
    keysToCells({
      current: {
        focusGrid: () => {
          asked += 1;
          if (asked === 3) document.body.append(cell);
          if (cell.isConnected) cell.focus();
        },
      },
    });
    for (let i = 0; i < 4; i += 1) await twoFrames();
    expect(document.activeElement).toBe(cell);
    expect(asked).toBe(3);
  });

  it('stay in a field one has gone on to meanwhile', async () => {
    keysToCells({ current: { focusGrid } });
    document.querySelector('input')?.focus();
    await twoFrames();
    expect(focusGrid).not.toHaveBeenCalled();
  });
});
