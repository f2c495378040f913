import type { AstroIntegration } from 'astro';

export function offline(): AstroIntegration;
/** @returns how many files an edition can't be without, and their bytes */
export function writeServiceWorker(dist: string): { files: number; bytes: number };
