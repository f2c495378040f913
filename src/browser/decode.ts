/** From a file a person chose to a picture. */

export type DecodeFailure =
  'empty' | 'too-heavy' | 'heic' | 'vector' | 'not-an-image' | 'too-many-pixels' | 'too-small';

export type Decoded =
  { readonly ok: true; readonly bitmap: ImageBitmap } | { readonly ok: false; readonly failure: DecodeFailure };

const MOST_BYTES = 60_000_000;
const MOST_PIXELS = 60_000_000;
/** Below this no card fills enough pixels to be read. */
const LEAST_SIDE = 240;

/** Decodes in full, upright by the photo's own orientation tag; the caller owns the bitmap and closes it. */
export async function decodePhoto(file: Blob): Promise<Decoded> {
  if (file.size === 0) return { ok: false, failure: 'empty' };
  if (file.size > MOST_BYTES) return { ok: false, failure: 'too-heavy' };
  const kind = await sniff(file);
  if (kind === 'vector') return { ok: false, failure: 'vector' };
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image', premultiplyAlpha: 'none' });
  } catch {
    return { ok: false, failure: kind === 'heic' ? 'heic' : 'not-an-image' };
  }
  const failure = sizeFailure(bitmap);
  if (!failure) return { ok: true, bitmap };
  bitmap.close();
  return { ok: false, failure };
}

function sizeFailure({ width, height }: ImageBitmap): DecodeFailure | null {
  if (width * height > MOST_PIXELS) return 'too-many-pixels';
  return Math.min(width, height) < LEAST_SIDE ? 'too-small' : null;
}

/* ISO/IEC 23008-12 brands of HEVC-coded stills; browsers other than Safari don't decode them. */
const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1'];

/** What the first bytes say, where it changes what a person should be told. */
async function sniff(file: Blob): Promise<'heic' | 'vector' | 'other'> {
  const start = new TextDecoder('latin1').decode(await file.slice(0, 256).arrayBuffer());
  if (start.slice(4, 8) === 'ftyp' && HEIC_BRANDS.includes(start.slice(8, 12))) return 'heic';
  return /<svg[\s>]/i.test(start) || file.type === 'image/svg+xml' ? 'vector' : 'other';
}
