import { expect, test } from '@playwright/test';
import fc from 'fast-check';
import { makePlan } from '../../../src/core/water/plan/make-plan.ts';
import { anyInput } from '../../core/water/plan/inputs.ts';

test('a plan is made in under 50 ms (median of 30, after a first one)', () => {
  const times = fc.sample(anyInput, { seed: 88, numRuns: 31 }).map((input) => {
    const started = performance.now();
    makePlan(input);
    return performance.now() - started;
  });
  const sorted = times.slice(1).sort((a, b) => a - b);
  expect(sorted[15]).toBeLessThan(50);
});

test('recomputes fast enough to follow the typing', async ({ page }) => {
  await page.goto('/plan/');
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');
  await page.fill('#volume', '24000');
  for (const [id, value] of [
    ['free-chlorine', 1],
    ['ph', 8],
    ['total-alkalinity', 130],
    ['calcium-hardness', 90],
  ] as const) {
    await page.fill(`#reading-${id}`, String(value));
  }
  await expect(page.locator('.plan-sheet .step').first()).toBeVisible();
  const millis = await page.evaluate(() => {
    const field = document.querySelector<HTMLInputElement>('#reading-ph')!;
    const times = ['7.7', '7.8', '7.9', '8.1', '8.2', '8.3', '7.6'].map((text) => {
      field.value = text;
      const started = performance.now();
      field.dispatchEvent(new Event('input', { bubbles: true }));
      return performance.now() - started;
    });
    // The quickest: what else the machine does only makes it slower.
    return Math.min(...times);
  });
  expect(millis).toBeLessThan(100);
});
