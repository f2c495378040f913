/** One run of Lighthouse over one page; fetched at a pinned version when it is first asked for, since it is large. */
import { spawn } from 'node:child_process';
import { npmCommand } from '../../../src/cli/install.mjs';

/** 110 packages and 170 MB: too much for everybody's `npm ci`. */
const LIGHTHOUSE = 'lighthouse@13.5.0';
const LONGEST_MILLIS = 240_000;

export const CATEGORIES = ['performance', 'accessibility', 'best-practices', 'seo'] as const;
export type Category = (typeof CATEGORIES)[number];

export interface Audited {
  /** 0 to 100. */
  readonly scores: Readonly<Record<Category, number>>;
  /** Milliseconds, but for the shift of the layout, which has no unit. */
  readonly figures: { readonly paint: number; readonly largest: number; readonly blocking: number; shift: number };
  /** Audits that count and weren't passed in full. */
  readonly failed: readonly string[];
}

/** The parts of its report that are read here. */
interface Report {
  readonly runtimeError?: { readonly message: string };
  readonly categories: Readonly<
    Record<
      Category,
      { readonly score: number | null; readonly auditRefs: readonly { readonly id: string; readonly weight: number }[] }
    >
  >;
  readonly audits: Readonly<Record<string, { readonly score: number | null; readonly numericValue?: number }>>;
}

/** Its own mobile profile: a mid-range phone and slow 4G, computed from what the page did here. */
export async function audit(url: string, chromiumPath: string): Promise<Audited> {
  const report = JSON.parse(await run(url, chromiumPath)) as Report;
  if (report.runtimeError) throw new Error(`${url}: ${report.runtimeError.message}`);
  const number = (id: string) => report.audits[id]?.numericValue ?? NaN;
  return {
    scores: Object.fromEntries(
      CATEGORIES.map((name) => [name, Math.round(100 * (report.categories[name].score ?? 0))]),
    ) as Record<Category, number>,
    figures: {
      paint: number('first-contentful-paint'),
      largest: number('largest-contentful-paint'),
      blocking: number('total-blocking-time'),
      shift: number('cumulative-layout-shift'),
    },
    failed: CATEGORIES.flatMap((name) => report.categories[name].auditRefs)
      .filter(({ id, weight }) => weight > 0 && (report.audits[id]?.score ?? 1) < 0.9)
      .map(({ id }) => id),
  };
}

function run(url: string, chromiumPath: string): Promise<string> {
  const { command, args, options } = npmCommand(
    ...['exec', '--yes', `--package=${LIGHTHOUSE}`, '--', 'lighthouse', url, '--quiet'],
    ...['--output=json', '--output-path=stdout', `--only-categories=${CATEGORIES.join(',')}`],
    '--chrome-flags=--headless=new --no-sandbox',
  );
  const child = spawn(command, args, {
    ...options,
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: LONGEST_MILLIS,
    env: { ...process.env, CHROME_PATH: chromiumPath },
  });
  let output = '';
  let complaint = '';
  child.stdout.on('data', (text) => (output += text));
  child.stderr.on('data', (text) => (complaint += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => (code === 0 ? resolve(output) : reject(new Error(`${url}: ${complaint.trim()}`))));
  });
}
