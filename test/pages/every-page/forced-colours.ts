import { expect, type Page } from '@playwright/test';
import { overflow } from '../built.ts';

/** Where the visitor's own colours replace the page's, in both usual palettes. */
export async function expectForcedColours(page: Page): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ forcedColors: 'active', colorScheme });
    expect(await page.evaluate(() => matchMedia('(forced-colors: active)').matches)).toBe(true);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await expect.poll(() => faintIn(page), colorScheme).toEqual([]);
  }
  await page.emulateMedia({ forcedColors: 'none', colorScheme: 'light' });
}

/** Words, and letters and lines of drawings that don't stand out from the canvas (WCAG 2.2: 4.5 for text, 3 for graphics). */
function faintIn(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const luminance = (colour: string) => {
      const [r, g, b] = colour.match(/[\d.]+/g)!.map((part) => {
        const value = Number(part) / 255;
        return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      }) as [number, number, number];
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const canvas = luminance(getComputedStyle(document.documentElement).backgroundColor);
    const contrast = (colour: string, ground = canvas) => {
      const ink = luminance(colour);
      return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    };
    const letters = [...document.querySelectorAll<SVGElement>('svg text')].filter((text) => text.checkVisibility());
    const faint = letters.filter((text) => contrast(getComputedStyle(text).fill) < 4.5);
    const groundOf = (element: Element | null): number => {
      if (!element) return canvas;
      const { backgroundColor } = getComputedStyle(element);
      return backgroundColor === 'rgba(0, 0, 0, 0)' ? groundOf(element.parentElement) : luminance(backgroundColor);
    };
    const words = [...document.querySelectorAll<HTMLElement>('body *')]
      .filter((element) => element.checkVisibility() && !element.closest('[disabled]'))
      .filter((element) =>
        [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent!.trim() !== ''),
      )
      .filter((element) => contrast(getComputedStyle(element).color, groundOf(element)) < 4.5);
    const drawings = [...document.querySelectorAll('svg')].filter((drawing) => drawing.checkVisibility());
    // A drawing may have faint parts, but not only faint ones.
    const lost = drawings.filter((drawing) => {
      const inks = [...drawing.querySelectorAll('path, line, circle, rect, polyline, polygon, ellipse, text')]
        .map((part) => getComputedStyle(part))
        .flatMap(({ stroke, fill }) => [stroke, fill])
        .filter((ink) => ink.startsWith('rgb'));
      return inks.length > 0 && !inks.some((ink) => contrast(ink) >= 3);
    });
    return [...words, ...faint, ...lost].map((element) => element.outerHTML.slice(0, 160));
  });
}
