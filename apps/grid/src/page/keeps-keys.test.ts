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

  it('stay in a field one has gone on to meanwhile', async () => {
    keysToCells({ current: { focusGrid } });
    document.querySelector('input')?.focus();
    await twoFrames();
    expect(focusGrid).not.toHaveBeenCalled();
  });
});
