/**
 * What a screen reader has to say on the way from a photo to a plan, by keyboard alone: every stop of the focus with the
 * role, name and state that the browser computes, every announcement, and what is read out of sheet and plan. Kept as a
 * text that was read through; after a change that is meant: `npm run pages -- spoken --update-snapshots`, and read it.
 */
import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { STAGES } from '../../src/components/read/stages.ts';
import { openDesk, sheet } from './reading.ts';

/** Said where the wait is long, as many as there are then: left out. */
const LATER_STAGES = STAGES.slice(1).map(({ text }) => `${text}.`);

test('from a practice photo to a plan', async ({ page }) => {
  test.slow();
  await page.clock.setFixedTime(new Date('2026-06-15T12:00:00'));
  await hearAnnouncements(page);
  const transcript = await transcriptOf(page);
  await openDesk(page);

  transcript.title('The page for reading a strip');
  await transcript.tabTo(/Open shade on the terrace/);
  await transcript.press('Enter', async () => expect(sheet(page)).toBeVisible());
  transcript.title('The reading');
  transcript.add(await sheet(page).ariaSnapshot());
  await transcript.tabTo(/Take these values to the plan/);
  await transcript.press('Enter', async () => page.waitForURL('**/plan/'));
  await expect(page.locator('plan-desk')).toHaveAttribute('data-ready', '');

  // Announced once the page rests: waited for, so that it always comes before the first stop.
  await expect(page.locator('.plan-said')).toContainText('The plan:');

  transcript.title('The plan');
  await transcript.tabTo(/Not on a strip/);
  await transcript.press('Enter', () => expect(page.getByLabel('Water temperature')).toBeVisible());
  await transcript.tabTo(/Water temperature/);
  await transcript.type('26');
  await transcript.tabTo(/Volume/);
  await transcript.type('28500');
  await transcript.press('Tab', () => expect(page.locator('.plan-said')).toContainText('steps'));
  transcript.add(await page.locator('.plan-sheet').ariaSnapshot());
  expect(transcript.text()).toMatchSnapshot('from-photo-to-plan.txt');
});

type WithSaid = typeof window & { said: string[] };

async function hearAnnouncements(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const said: string[] = [];
    Object.assign(window, { said });
    new MutationObserver((changes) => {
      // Of one moment once; said again at a later one, it is heard again.
      const now = new Map<Element, string>();
      for (const { target } of changes) {
        const element = target instanceof Element ? target : target.parentElement;
        const region = element?.closest('[role=status], [role=alert], [aria-live]');
        const text = region?.checkVisibility() ? region.textContent.replaceAll(/\s+/g, ' ').trim() : '';
        if (region && text) now.set(region, text);
      }
      said.push(...now.values());
    }).observe(document, { childList: true, characterData: true, subtree: true });
  });
}

interface Transcript {
  title(text: string): void;
  add(text: string): void;
  /** Tabs on, writing down each stop, until one has the name. */
  tabTo(name: RegExp): Promise<void>;
  /** Presses a key; then writes down what was announced and where the focus went. */
  press(key: string, until: () => Promise<unknown>): Promise<void>;
  type(text: string): Promise<void>;
  text(): string;
}

async function transcriptOf(page: Page): Promise<Transcript> {
  const lines: string[] = [];
  const session = await page.context().newCDPSession(page);
  const heard = async () => {
    const said = await page.evaluate(() => (window as WithSaid).said.splice(0));
    for (const text of said.filter((one) => !LATER_STAGES.includes(one))) lines.push(`  says: ${text}`);
  };
  const stop = async () => {
    await heard();
    const focus = await focusOf(session);
    lines.push(focus);
    return focus;
  };
  return {
    title: (text) => lines.push('', `# ${text}`, ''),
    add: (text) => lines.push('', text, ''),
    tabTo: async (name) => {
      for (let i = 0; i < 90; i++) {
        await page.keyboard.press('Tab');
        if (name.test(await stop())) return;
      }
      throw new Error(`no way to ${String(name)} by Tab`);
    },
    press: async (key, until) => {
      lines.push(`[${key}]`);
      await page.keyboard.press(key);
      await until();
      await stop();
    },
    type: async (text) => {
      await page.keyboard.type(text);
      lines.push(`[${text}]`);
    },
    text: () => `${lines.join('\n').trim()}\n`,
  };
}

/** Role, name, value and state of what has the focus, as the browser hands them to a screen reader. */
async function focusOf(session: CDPSession): Promise<string> {
  const { result } = await session.send('Runtime.evaluate', { expression: 'document.activeElement' });
  const { nodes } = await session.send('Accessibility.getPartialAXTree', {
    objectId: result.objectId!,
    fetchRelatives: false,
  });
  const { role, name, value, description, properties } = nodes[0]!;
  const states = (properties ?? [])
    .filter(({ name }) => ['checked', 'disabled', 'expanded', 'invalid', 'pressed', 'required'].includes(name))
    .filter(({ value }) => value.value !== false && value.value !== 'false')
    .map(({ name, value }) =>
      value.value === true || value.value === 'true' ? name : `${name} ${String(value.value)}`,
    );
  const parts = [
    role?.value,
    `“${String(name?.value ?? '')}”`,
    value?.value && `holds ${String(value.value)}`,
    ...states,
  ];
  return [...parts, description?.value].filter(Boolean).join(', ');
}
