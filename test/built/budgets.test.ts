import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BUDGETS } from './budgets.ts';
import { bytesSent, fileOf, PAGES, requestsOf } from './files.ts';

const kB = (paths: readonly string[]) => paths.reduce((sum, path) => sum + bytesSent(path), 0) / 1000;

describe.each(PAGES)('%s', (page) => {
  const budget = BUDGETS.find(({ pages }) => pages.test(page));
  const requests = requestsOf(page);

  it('keeps to its budget', () => {
    if (!budget) throw new Error('a new type of page needs a budget, and its reason');
    const scripts = requests.filter((path) => path.endsWith('.js'));
    expect(kB(requests), `kB: ${budget.why}`).toBeLessThanOrEqual(budget.totalKB);
    expect(kB(scripts), `kB of script: ${budget.why}`).toBeLessThanOrEqual(budget.scriptKB);
    expect(requests.length, `requests: ${budget.why}`).toBeLessThanOrEqual(budget.requests);
  });

  it('is counted whole: page, styles and scripts', () => {
    expect(requests).toContain(page);
    for (const kind of ['.css', '.js']) expect(requests.filter((path) => path.endsWith(kind))).not.toEqual([]);
  });
});

it('lets no page send more than 60 kB before it is touched', () => {
  expect(BUDGETS.filter(({ totalKB }) => totalKB > 60)).toEqual([]);
});

it('has a page for every budget', () => {
  expect(BUDGETS.filter(({ pages }) => !PAGES.some((page) => pages.test(page)))).toEqual([]);
});

it('keeps the reader small enough to come while a photo is looked for', () => {
  const files = readdirSync(fileOf('/_astro')).filter((name) => /^worker-.*\.js$/.test(name));
  expect(files).toHaveLength(1);
  // At 1.6 Mbit/s it takes less than half a second.
  expect(kB(files.map((name) => `/_astro/${name}`))).toBeLessThanOrEqual(50);
});
