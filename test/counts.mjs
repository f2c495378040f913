// How many tests passed, failed and were left out, from the reports of the two runners.
import { existsSync, readFileSync } from 'node:fs';

/** Of Vitest's JSON report; a file that failed before its first test counts as one. */
export function unitTestCounts(file) {
  const report = read(file);
  if (!report) return NO_REPORT;
  const stillborn = report.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && !assertionResults.some((one) => one.status === 'failed'),
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + stillborn.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/** Of Playwright's JSON report; a test that passed at its second try has failed once, and isn't called passed. */
export function pageTestCounts(file) {
  const report = read(file);
  if (!report) return NO_REPORT;
  const { expected, unexpected, flaky, skipped } = report.stats;
  return { passed: expected, failed: unexpected + flaky + report.errors.length, skipped };
}

export function addCounts(a, b) {
  return { passed: a.passed + b.passed, failed: a.failed + b.failed, skipped: a.skipped + b.skipped };
}

export function countsLine({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed, ${skipped} skipped`;
}

/** The runner ended before it could say anything. */
const NO_REPORT = { passed: 0, failed: 1, skipped: 0 };

function read(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;
}
