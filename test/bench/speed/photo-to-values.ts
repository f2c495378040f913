/** How long a photo takes to become values on the read page, against the browser's own full decode of it. */
import type { Page } from 'playwright';
import { hearWorkers, type PageAnswer, type PageFile, type PageStage, readInPage } from '../../browsers/in-page.ts';

export interface PhotoToValues {
  /** Medians, ms: the browser's own decode, from photo to values, from photo to the sheet on the page. */
  readonly decode: number;
  readonly values: number;
  readonly sheet: number;
  /** Each round's values over its own decode. */
  readonly ratios: readonly number[];
  /** Medians of how long each stage took, ms; the first is the page's before the worker begins. */
  readonly stages: readonly PageStage[];
}

/** What the page has still to draw after the last thing done in it. */
const REST_MILLIS = 300;

/** @param page the read page, open; the first rounds warm the engine and don't count */
export async function photoToValues(page: Page, file: PageFile, rounds: number, warm = 3): Promise<PhotoToValues> {
  const times: Omit<PhotoToValues, 'ratios'>[] = [];
  await page.evaluate(hearWorkers);
  for (let round = 0; round < warm + rounds; round++) {
    await page.evaluate(putAway);
    await page.waitForTimeout(REST_MILLIS);
    const decode = await page.evaluate(decodeInPage, file);
    await page.waitForTimeout(REST_MILLIS);
    const answer = await page.evaluate(readInPage, file);
    if (answer.outcome !== 'read') throw new Error(`the photo was ${answer.outcome}: ${answer.sentence}`);
    if (round >= warm)
      times.push({ decode, values: answer.valuesMillis, sheet: answer.millis, stages: lengths(answer) });
  }
  return {
    decode: median(times.map(({ decode }) => decode)),
    values: median(times.map(({ values }) => values)),
    sheet: median(times.map(({ sheet }) => sheet)),
    ratios: times.map(({ decode, values }) => values / decode),
    stages: times[0]!.stages.map(({ stage }, i) => ({
      stage,
      millis: median(times.map((one) => one.stages[i]!.millis)),
    })),
  };
}

/** The sheet of the round before, so that drawing the page without it isn't counted. */
function putAway(): void {
  document.querySelector('.result')!.replaceChildren();
}

/** From when stages began to how long they took; the last is from the values to the sheet. */
export function lengths({ stages, valuesMillis, millis }: PageAnswer): PageStage[] {
  const begun = [{ stage: 'open', millis: 0 }, ...stages, { stage: 'sheet', millis: valuesMillis }];
  return begun.map((one, i) => ({ stage: one.stage, millis: (begun[i + 1]?.millis ?? millis) - one.millis }));
}

/** Runs in the page: all pixels, upright and in sRGB, as the page itself asks for them. */
export async function decodeInPage({ base64, type }: PageFile): Promise<number> {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const photo = new Blob([bytes], { type });
  const started = performance.now();
  const bitmap = await createImageBitmap(photo, { imageOrientation: 'from-image', premultiplyAlpha: 'none' });
  const millis = performance.now() - started;
  bitmap.close();
  return millis;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
}
