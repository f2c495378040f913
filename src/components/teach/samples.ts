/** The practice photos for teaching, gathered at build time. */
import type { ImageMetadata } from 'astro';
import truth from '../../../sample-images/charts/truth.json' with { type: 'json' };

export interface TeachPhoto {
  readonly image: ImageMetadata;
  /** Where the full photo is served. */
  readonly url: string;
  readonly file: string;
  readonly caption: string;
}

const FOLDER = '/sample-images/';
const images = import.meta.glob<ImageMetadata>('/sample-images/charts/*.jpg', { eager: true, import: 'default' });
const urls = import.meta.glob<string>('/sample-images/charts/*.jpg', { eager: true, query: '?url', import: 'default' });

export function photosOf(shows: 'chart' | 'strip' | 'reading'): TeachPhoto[] {
  return truth.photos.flatMap((photo) => {
    if (photo.shows !== shows) return [];
    const image = images[FOLDER + photo.file];
    const url = urls[FOLDER + photo.file];
    if (!image || !url) throw new Error(`sample-images/charts/truth.json names ${photo.file}, which is not there`);
    return [{ image, url, file: photo.file.replace('charts/', ''), caption: photo.caption }];
  });
}

/** What is printed on the practice bottle beside its chart. */
export const practiceStrip = truth.strip;
