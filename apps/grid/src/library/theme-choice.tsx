import type { BookStore } from '@kerfbook/keeping';
import { useEffect, useId, useState } from 'react';
import { isTheme, showTheme, THEMES, type Theme } from '../styles/theme.ts';

const WORDS: Readonly<Record<Theme, string>> = {
  auto: 'As the device',
  light: 'Light',
  dark: 'Dark',
};

const THEME_KEY = 'theme';

/** Light or dark, kept on this device. */
export function ThemeChoice({ store }: { readonly store: Pick<BookStore, 'get' | 'set'> }) {
  const [theme, setTheme] = useState<Theme>('auto');
  const field = useId();
  useEffect(() => {
    store.get(THEME_KEY).then(
      (kept) => {
        if (isTheme(kept)) setTheme(kept);
      },
      () => undefined,
    );
  }, [store]);
  useEffect(() => showTheme(theme), [theme]);
  return (
    <p className="theme-choice">
      <label htmlFor={field}>Light or dark</label>
      <select
        id={field}
        className="button"
        value={theme}
        onChange={(event) => {
          const chosen = THEMES.find((one) => one === event.target.value) ?? 'auto';
          setTheme(chosen);
          store.set(THEME_KEY, chosen).catch(() => undefined);
        }}
      >
        {THEMES.map((one) => (
          <option key={one} value={one}>
            {WORDS[one]}
          </option>
        ))}
      </select>
    </p>
  );
}
