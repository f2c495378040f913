/** Applies the chosen light or dark colours at once; `public/theme.js` does so before the first paint of every page. */
import { settings } from '../browser/settings.ts';

export function showTheme(): void {
  const theme = settings.theme();
  if (theme === 'auto') delete document.documentElement.dataset['theme'];
  else document.documentElement.dataset['theme'] = theme;
}
