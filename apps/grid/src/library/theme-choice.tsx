import type { BookStore } from '@kerfbook/keeping';
import { useEffect, useId, useState } from 'react';
import { isTheme, showTheme, THEMES, type Theme, themeShown } from '../styles/theme.ts';

const WORDS: Readonly<Record<Theme, string>> = {
  auto: 'Same as device',
  light: 'Light',
  dark: 'Dark',
};

const THEME_KEY = 'theme';

/** Shows the page as its maker chose to have it on this device; until that is read, as the device has it. */
export function useKeptTheme(store: Pick<BookStore, 'get'>): void {
  useEffect(() => {
    store.get(THEME_KEY).then(
      (kept) => {
        if (isTheme(kept)) showTheme(kept);
      },
      () => undefined,
    );
  }, [store]);
}

/** Light or dark, kept on this device. */
export function ThemeChoice({ store }: { readonly store: Pick<BookStore, 'set'> }) {
  const [theme, setTheme] = useState<Theme>(themeShown);
  const field = useId();
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
          showTheme(chosen);
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
