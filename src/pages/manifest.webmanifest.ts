/** What the device needs to install the site: name, icons, and what it may be handed. */
import type { APIRoute } from 'astro';
import { href } from '../components/href.ts';
import { LANGUAGE } from '../words/grammar.ts';

export const GET: APIRoute = () =>
  new Response(
    JSON.stringify({
      id: href(),
      name: 'Dipwise',
      short_name: 'Dipwise',
      description: 'A photo of a dipped pool test strip becomes values with honest intervals, and a plan for the pool.',
      lang: LANGUAGE,
      start_url: href(),
      scope: href(),
      display: 'standalone',
      background_color: '#f6efdf',
      theme_color: '#f6efdf',
      icons: [
        { src: href('icon.svg'), sizes: 'any', type: 'image/svg+xml' },
        { src: href('icons/192.png'), sizes: '192x192', type: 'image/png' },
        { src: href('icons/512.png'), sizes: '512x512', type: 'image/png' },
        { src: href('icons/maskable-512.png'), sizes: '512x512', type: 'image/png', purpose: 'maskable' },
      ],
      shortcuts: [
        { name: 'Read a strip', url: href('read/') },
        { name: 'Logbook', url: href('log/') },
      ],
      // Taken by the service worker, which hands the photo to the read page.
      share_target: {
        action: href('read/'),
        method: 'POST',
        enctype: 'multipart/form-data',
        params: { files: [{ name: 'photo', accept: ['image/*'] }] },
      },
      file_handlers: [{ action: href('scales/'), accept: { 'application/json': ['.dipwise-scale.json', '.json'] } }],
    }),
    { headers: { 'content-type': 'application/manifest+json' } },
  );
