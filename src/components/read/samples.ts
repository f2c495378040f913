/** The practice photos of the gallery, gathered at build time. */
import type { ImageMetadata } from 'astro';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import truth from '../../../sample-images/truth.json' with { type: 'json' };

export interface PracticePhoto {
  readonly image: ImageMetadata;
  /** Where the full photo is served. */
  readonly url: string;
  readonly caption: string;
  readonly scaleId: string;
  /** What the photo was simulated with; null for one that can't be read. */
  readonly values: Partial<Record<PadQuantity, number>> | null;
}

const FOLDER = '/sample-images/';
const images = import.meta.glob<ImageMetadata>('/sample-images/**/*.jpg', { eager: true, import: 'default' });
const urls = import.meta.glob<string>('/sample-images/**/*.jpg', { eager: true, query: '?url', import: 'default' });

export const readablePhotos: readonly PracticePhoto[] = truth.photos.map((photo) => practicePhoto(photo, photo.values));
export const refusedPhotos: readonly PracticePhoto[] = truth.refused.map((photo) => practicePhoto(photo, null));

function practicePhoto(
  { file, caption, scale }: { file: string; caption: string; scale: string },
  values: PracticePhoto['values'],
): PracticePhoto {
  const image = images[FOLDER + file];
  const url = urls[FOLDER + file];
  if (!image || !url) throw new Error(`sample-images/truth.json names ${file}, which is not there`);
  return { image, url, caption, scaleId: scale, values };
}
