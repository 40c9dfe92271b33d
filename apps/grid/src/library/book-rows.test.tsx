// @vitest-environment happy-dom
import { act } from 'react';
import { createRoot } from 'react-dom/client';
import { expect, it } from 'vitest';
import { Question } from './book-rows.tsx';

it('asks before it destroys with a press that looks like it, and puts the keys on the other one', async () => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  const page = document.createElement('div');
  document.body.append(page);
  const root = createRoot(page);
  const nothing = (): void => undefined;
  await act(async () =>
    root.render(<Question says="Delete it?" does="Delete" onYes={nothing} onNo={nothing} />),
  );
  const [yes, no] = page.querySelectorAll('button');
  expect(yes?.className).toBe('button button-danger');
  expect(document.activeElement).toBe(no);
  await act(async () => root.unmount());
});
