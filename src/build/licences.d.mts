import type { AstroIntegration } from 'astro';

/** A plugin of Vite's. */
export function seeLicences(): { name: string };
export function licences(): AstroIntegration;
