/** The sign of the house as PNG, for devices that take no drawing. */
import type { APIRoute, GetStaticPaths } from 'astro';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';

const PAPER = '#f6efdf';
/** A mask may cut away all but a circle of four fifths of the width (W3C Web Application Manifest, "safe zone"). */
const SAFE_SHARE = 0.7;

const ICONS = {
  '192': { size: 192, maskable: false },
  '512': { size: 512, maskable: false },
  'maskable-512': { size: 512, maskable: true },
  'apple-180': { size: 180, maskable: true },
} as const;

export const getStaticPaths: GetStaticPaths = () =>
  Object.entries(ICONS).map(([name, props]) => ({ params: { name }, props }));

export const GET: APIRoute<(typeof ICONS)[keyof typeof ICONS]> = async ({ props: { size, maskable } }) => {
  const drawing = readFileSync(join(process.cwd(), 'public', 'icon.svg'));
  const inner = maskable ? Math.round(size * SAFE_SHARE) : size;
  const sign = sharp(drawing, { density: 600 }).resize(inner, inner);
  const before = Math.floor((size - inner) / 2);
  const after = size - inner - before;
  const whole = maskable
    ? sign
        .flatten({ background: PAPER })
        .extend({ top: before, left: before, bottom: after, right: after, background: PAPER })
    : sign;
  return new Response(new Uint8Array(await whole.png().toBuffer()));
};
