/** What each type of page may send, and why: 60 kB at most. */

export interface Budget {
  readonly pages: RegExp;
  /** Everything the page asks for before it is touched, in kB as sent. */
  readonly totalKB: number;
  /** Of that, scripts. */
  readonly scriptKB: number;
  readonly requests: number;
  /** What it fetches of itself once it stands, in kB as sent, without pictures that come near. */
  readonly laterKB?: number;
  /**
   * How long tasks over 50 ms keep a tap waiting while it loads, on a processor four times slower, ms. Up to 200 is called
   * good (web.dev, Total Blocking Time); a text has nothing to compute, and half of that is room for the browser's own work.
   */
  readonly blockedMillis: number;
  readonly why: string;
}

/**
 * A mid-range phone on slow 4G (1.6 Mbit/s): 20 kB take 0.1 s. The first that fits a page counts. 1.5 kB of each page is the
 * script that notices what arrived damaged, before all others; the logbook's pages check every record that they read.
 */
export const BUDGETS: readonly Budget[] = [
  {
    pages: /^\/(card\/)?$/,
    totalKB: 31,
    scriptKB: 7,
    requests: 18,
    blockedMillis: 100,
    why: 'where visitors come in: seen in a second, so drawings are in the page, and script only keeps the site',
  },
  {
    pages: /^\/read\/help\/$/,
    totalKB: 42,
    scriptKB: 7,
    requests: 18,
    blockedMillis: 100,
    why: 'a text with a drawing for each trouble; it must be readable before any script',
  },
  {
    pages: /^\/learn\/match-by-eye\/$/,
    totalKB: 60,
    scriptKB: 28.5,
    requests: 36,
    blockedMillis: 100,
    why: 'a strip is drawn at once, with its curve and what an error would dose',
  },
  {
    pages: /^\/learn\/[^/]+\/$/,
    totalKB: 60,
    scriptKB: 10.4,
    requests: 22,
    blockedMillis: 100,
    why: 'a text: 60 kB is the promise; an instrument asks for its own script when it is used',
  },
  {
    pages: /^\/learn\/$/,
    totalKB: 17,
    scriptKB: 5,
    requests: 16,
    blockedMillis: 200,
    why: 'a list of contents; the search index comes when the search is used',
  },
  {
    pages: /^\/plan\/$/,
    totalKB: 36,
    scriptKB: 20,
    requests: 32,
    blockedMillis: 200,
    why: 'a form that folds into lines; the chemistry (60 kB) comes when the form is used or a reading was handed over',
  },
  {
    pages: /^\/settings\/$/,
    totalKB: 53,
    scriptKB: 44,
    requests: 35,
    blockedMillis: 200,
    why: 'says what is kept, so it opens the logbook, and that checks all it reads; writing files comes when one is asked for',
  },
  {
    pages: /^\/log\/$/,
    totalKB: 60,
    scriptKB: 49,
    requests: 42,
    blockedMillis: 200,
    why: 'opens the logbook at once; entries, trends and summary come when there are some, what a form or file needs when it is used',
  },
  {
    pages: /^\/log\/report\/$/,
    totalKB: 54,
    scriptKB: 44,
    requests: 39,
    blockedMillis: 200,
    why: 'opens the logbook; the sections come when there are entries',
  },
  {
    pages: /^\/scales\/$/,
    totalKB: 55,
    scriptKB: 40,
    requests: 36,
    blockedMillis: 200,
    why: 'opens the logbook, where scales are kept; judging and editing them come when there are scales',
  },
  {
    pages: /^\/read\/$/,
    totalKB: 53,
    scriptKB: 35,
    requests: 38,
    laterKB: 80,
    blockedMillis: 200,
    why: 'camera and timer are there at once; kept scales and the reader come once the page rests, as the service worker fetches them anyway; the sheet while a photo is looked for, photos near them',
  },
  {
    pages: /^\/scales\/teach\/$/,
    totalKB: 60,
    scriptKB: 40,
    requests: 39,
    blockedMillis: 200,
    why: 'what marks the chart is there at once; the steps after it come once somebody has begun',
  },
];
