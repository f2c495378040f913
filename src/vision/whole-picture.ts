/** When no card is found: does the picture itself say why? */
import type { Pixels } from './pixels.ts';

/** Levels (0-255) of green; most of the picture must lie beyond for the light to be the reason. */
const DARK_LEVEL = 40;
const BRIGHT_LEVEL = 250;
const MOST_DARK = 0.9;
const MOST_BRIGHT = 0.4;
/** Steepest steps of a sharp picture rise by at least this many levels over a 400th of its longer side. */
const SHARP_STEP = 24;
const SAMPLES_ACROSS = 400;

/** @returns why nothing could be found, or null when light and focus aren't to blame */
export function whyNothingFound(pixels: Pixels): 'too-dark' | 'blown-out' | 'blurred' | null {
  const step = Math.max(1, Math.floor(Math.max(pixels.width, pixels.height) / SAMPLES_ACROSS));
  let [dark, bright, count] = [0, 0, 0];
  const steps: number[] = [];
  for (let y = 0; y + step < pixels.height; y += step) {
    for (let x = 0; x + step < pixels.width; x += step) {
      const here = green(pixels, x, y);
      if (here < DARK_LEVEL) dark++;
      if (here >= BRIGHT_LEVEL) bright++;
      steps.push(Math.max(Math.abs(green(pixels, x + step, y) - here), Math.abs(green(pixels, x, y + step) - here)));
      count++;
    }
  }
  if (count === 0) return null;
  if (dark / count > MOST_DARK) return 'too-dark';
  if (bright / count > MOST_BRIGHT) return 'blown-out';
  steps.sort((one, two) => one - two);
  return steps[Math.floor(0.995 * steps.length)]! < SHARP_STEP ? 'blurred' : null;
}

function green({ data, width }: Pixels, x: number, y: number): number {
  return data[(y * width + x) * 4 + 1]!;
}
