/** From the text of a file to a scale, whoever wrote it. */
import { parseScale, type ParsedScale } from './schema.ts';

/** Far beyond any scale: forty blocks for each of twelve pads, taught twenty times, are under 400 kB. */
export const MAX_BYTES = 1_000_000;

/** A file can't pass for a scale that comes with the program: what it holds is the owner's. */
export function readScaleFile(text: string): ParsedScale {
  if (text.length > MAX_BYTES) return problem('file-too-large');
  let input: unknown;
  try {
    input = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return problem('not-json');
  }
  const parsed = parseScale(input);
  return parsed.ok ? { ok: true, scale: { ...parsed.scale, origin: 'taught' } } : parsed;
}

/** As it is saved to a file. */
export function scaleFileText(scale: object): string {
  return `${JSON.stringify(scale, null, 2)}\n`;
}

function problem(code: 'file-too-large' | 'not-json'): ParsedScale {
  return { ok: false, issues: [{ path: [], code }] };
}
