// @vitest-environment happy-dom
import { act } from 'react';
import { createRoot } from 'react-dom/client';
import { expect, it } from 'vitest';
import { PaperDesk, Tick } from './paper-desk.tsx';

it('begins with the first page on other paper or for somebody else, and stays where it is for a tick', async () => {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  const page = document.createElement('div');
  document.body.append(page);
  const root = createRoot(page);
  const nothing = (): void => undefined;
  const choices = (
    <>
      <label>
        <input type="radio" name="for whom" onChange={nothing} />
        For the customer
      </label>
      <Tick says="With prices" on onTick={nothing} />
    </>
  );
  await act(async () =>
    root.render(
      <PaperDesk
        title="Shop sheets"
        page={{ paper: 'letter', landscape: false }}
        onPage={nothing}
        choices={choices}
        chosen="for the shop"
      >
        <p>A page</p>
      </PaperDesk>,
    ),
  );
  const desk = page.querySelector('.paper-desk');
  const choose = async (kind: string): Promise<void> => {
    const [input] = [...page.querySelectorAll<HTMLInputElement>(`input[type="${kind}"]`)].slice(-1);
    await act(async () => input?.click());
  };
  if (desk === null) throw new Error('there is no desk');
  desk.scrollTop = 300;
  await choose('checkbox');
  expect(desk.scrollTop).toBe(300);
  await choose('radio');
  expect(desk.scrollTop).toBe(0);
  await act(async () => root.unmount());
});
