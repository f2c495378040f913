/** Small choices kept between visits. Storage may be denied: then nothing is kept and nothing breaks. */

/** The card was fetched from its page. */
export const CARD_TAKEN_KEY = 'card-taken';
/** What is kept of the plan's form. */
export const PLAN_FORM_KEY = 'plan-form';

export function remembered(key: string): string | null {
  try {
    return localStorage.getItem(`dipwise:${key}`);
  } catch {
    return null;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(`dipwise:${key}`, value);
  } catch {
    // Denied or full: the choice lasts as long as the page.
  }
}

export function forget(key: string): void {
  try {
    localStorage.removeItem(`dipwise:${key}`);
  } catch {
    // Denied: there is nothing to forget.
  }
}

/** Everything that was ever remembered here, for this tab and for good. */
export function forgetAll(): void {
  for (const storage of ['localStorage', 'sessionStorage'] as const) {
    try {
      const keys = Object.keys(globalThis[storage]).filter((key) => key.startsWith('dipwise:'));
      for (const key of keys) globalThis[storage].removeItem(key);
    } catch {
      // Denied: there is nothing to forget.
    }
  }
}
