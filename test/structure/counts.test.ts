import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { addCounts, countsLine, pageTestCounts, unitTestCounts } from '../counts.mjs';

const folder = mkdtempSync(join(tmpdir(), 'dipwise-counts-'));
afterAll(() => rmSync(folder, { recursive: true }));

function reported(content: object): string {
  const file = join(folder, 'report.json');
  writeFileSync(file, JSON.stringify(content));
  return file;
}

/** As Vitest writes it: https://vitest.dev/guide/reporters#json-reporter */
const UNIT = {
  numPassedTests: 7,
  numFailedTests: 1,
  numPendingTests: 2,
  numTodoTests: 1,
  testResults: [
    { status: 'passed', assertionResults: [{ status: 'passed' }] },
    { status: 'failed', assertionResults: [{ status: 'failed' }] },
    { status: 'failed', assertionResults: [] },
  ],
};

/** As Playwright writes it: https://playwright.dev/docs/test-reporters#json-reporter */
const PAGES = { stats: { expected: 5, unexpected: 1, flaky: 1, skipped: 2 }, errors: [{ message: 'no server' }] };

it('counts tests that failed, a file that never came to its tests, and what was left out', () => {
  expect(unitTestCounts(reported(UNIT))).toEqual({ passed: 7, failed: 2, skipped: 3 });
});

it('counts a test that passed at its second try, and what failed outside of tests', () => {
  expect(pageTestCounts(reported(PAGES))).toEqual({ passed: 5, failed: 3, skipped: 2 });
});

it('counts a runner that ended without a word as failed', () => {
  expect(unitTestCounts(join(folder, 'nowhere.json')).failed).toBe(1);
  expect(pageTestCounts(join(folder, 'nowhere.json')).failed).toBe(1);
});

it('sums them up in one line', () => {
  const sum = addCounts({ passed: 400, failed: 0, skipped: 1 }, { passed: 12, failed: 0, skipped: 2 });
  expect(countsLine(sum)).toBe('412 passed, 0 failed, 3 skipped');
});
