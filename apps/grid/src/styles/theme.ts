/** Light, dark, or as the device has it. */
export type Theme = 'auto' | 'light' | 'dark';

export const THEMES: readonly Theme[] = ['auto', 'light', 'dark'];

export function isTheme(value: unknown): value is Theme {
  return THEMES.some((theme) => theme === value);
}

/** Shows the page in a theme; `auto` leaves it to the device. */
export function showTheme(theme: Theme, page: HTMLElement = document.documentElement): void {
  if (theme === 'auto') delete page.dataset.theme;
  else page.dataset.theme = theme;
}

/** The theme the page is shown in. */
export function themeShown(page: HTMLElement = document.documentElement): Theme {
  const { theme } = page.dataset;
  return isTheme(theme) ? theme : 'auto';
}
