/** Accessibility by axe-core, as quick as it can be: it is most of what these tests spend their time on. */
import type { Page } from '@playwright/test';
import type axe from 'axe-core';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** The rules whose answer depends on the theme. */
const OF_COLOUR = ['color-contrast', 'link-in-text-block'];

/** What is wrong: the theme, the rule and the elements. */
export type Barrier = readonly [theme: 'light' | 'dark', rule: string, elements: readonly string[]];

/**
 * Every rule in the light theme, those of colour in the dark one, without motion. The site has no frames to look into.
 * @param within a selector, the whole page if left out
 */
export async function barriersOn(page: Page, within?: string): Promise<Barrier[]> {
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  // Once for both themes: it is half a megabyte to parse.
  await page.evaluate(AXE);
  const light = await analyse(page, within);
  // Where axe doesn't run it finds nothing.
  if (light.passes < 3) throw new Error(`axe passed ${light.passes} rules: is the page empty?`);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await analyse(page, within, OF_COLOUR);
  return [...light.violations.map(asBarrier('light')), ...dark.violations.map(asBarrier('dark'))];
}

type WithAxe = typeof window & { axe: typeof axe };

function analyse(page: Page, within: string | undefined, rules?: string[]) {
  return page.evaluate(
    async ([within, rules]) => {
      const { passes, violations } = await (window as unknown as WithAxe).axe.run(within ?? document, {
        resultTypes: ['violations'],
        ...(rules && { runOnly: rules }),
      });
      const found = violations.map(({ id, nodes }) => ({ id, elements: nodes.map(({ html }) => html) }));
      return { passes: passes.length, violations: found };
    },
    [within, rules] as const,
  );
}

function asBarrier(theme: Barrier[0]) {
  return ({ id, elements }: { id: string; elements: string[] }): Barrier => [theme, id, elements];
}
