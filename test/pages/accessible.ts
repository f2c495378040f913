/** Accessibility by axe-core, as quick as it can be: it is most of what these tests spend their time on. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** The rules whose answer depends on the theme. */
const OF_COLOUR = ['color-contrast', 'link-in-text-block'];

/** What is wrong: the theme, the rule and the elements. */
export type Barrier = readonly [theme: 'light' | 'dark', rule: string, elements: readonly string[]];

/**
 * Every rule in the light theme, those of colour in the dark one, without motion.
 * @param within a selector, the whole page if left out
 */
export async function barriersOn(page: Page, within?: string): Promise<Barrier[]> {
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  const light = await analyse(page, within);
  // Where axe doesn't run it finds nothing.
  if (light.passes.length < 3) throw new Error(`axe passed ${light.passes.length} rules: is the page empty?`);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await analyse(page, within, OF_COLOUR);
  return [...light.violations.map(asBarrier('light')), ...dark.violations.map(asBarrier('dark'))];
}

function analyse(page: Page, within: string | undefined, rules?: string[]) {
  // Legacy mode opens no second page to gather frames in; the site has no frames.
  const axe = new AxeBuilder({ page }).setLegacyMode();
  if (within) axe.include(within);
  return axe.options({ resultTypes: ['violations'], ...(rules && { runOnly: rules }) }).analyze();
}

function asBarrier(theme: Barrier[0]) {
  return ({ id, nodes }: { id: string; nodes: { html: string }[] }): Barrier => [
    theme,
    id,
    nodes.map(({ html }) => html),
  ];
}
