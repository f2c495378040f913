/** The faces that a page may be set in: the one it brings, and what stands in for it. */
import type { Page } from '@playwright/test';
import { fontsOf } from '../../built/files.ts';

/**
 * `blocked` is what this machine has; `wide` and `narrow` are the site's own face drawn a fifth larger and smaller in the
 * same lines. DejaVu Serif, the widest of the common ones, is 9 % wider without being fitted, Times New Roman 14 % narrower.
 */
export const FACES = ['shipped', 'blocked', 'wide', 'narrow'] as const;
export type Face = (typeof FACES)[number];

const SIZE_ADJUST = { shipped: '100%', wide: '120%', narrow: '80%' } as const;
const CUTS = { regular: 'normal 400', italic: 'italic 400', semibold: 'normal 500 900' } as const;

/**
 * Brings the faces to a page that is open, whatever of its own has come; `setFace` then changes from one to another.
 * Style sheets that are made by script pass the content policy.
 */
export async function bringFaces(page: Page): Promise<void> {
  const rules = fontsOf('/').flatMap((path) => {
    const cut = Object.keys(CUTS).find((name) => path.includes(`/${name}.`)) as keyof typeof CUTS;
    const [style, ...weight] = CUTS[cut].split(' ');
    return Object.entries(SIZE_ADJUST).map(
      ([face, size]) =>
        `@font-face { font-family: 'Trial ${face}'; font-style: ${style}; font-weight: ${weight.join(' ')};
         font-display: block; src: url('${path}') format('woff2'); size-adjust: ${size}; }`,
    );
  });
  await page.evaluate(
    async ([css, faces]) => {
      const sheet = new CSSStyleSheet();
      await sheet.replace(css);
      document.adoptedStyleSheets.push(sheet);
      const cuts = ['400 16px', 'italic 400 16px', '700 16px'];
      await Promise.all(faces.flatMap((face) => cuts.map((cut) => document.fonts.load(`${cut} 'Trial ${face}'`))));
    },
    // What is out of sight has a guessed size until it comes near: here it is measured.
    [['* { content-visibility: visible !important; }', ...rules].join('\n'), Object.keys(SIZE_ADJUST)] as const,
  );
}

export async function setFace(page: Page, face: Face): Promise<void> {
  await page.evaluate((face) => {
    const root = document.documentElement;
    root.style.removeProperty('--serif');
    const families = getComputedStyle(root).getPropertyValue('--serif').split(',').slice(1).join(',');
    root.style.setProperty('--serif', face === 'blocked' ? families : `'Trial ${face}', ${families}`);
  }, face);
}
