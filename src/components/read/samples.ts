/** The practice photos of the gallery, gathered at build time. */
import type { ImageMetadata } from 'astro';

export interface PracticePhoto {
  readonly image: ImageMetadata;
  /** Where the full photo is served. */
  readonly url: string;
  readonly name: string;
  /** What is special about it. */
  readonly about: string;
  readonly scaleId: string;
}

export function practicePhotos(): PracticePhoto[] {
  return [];
}
