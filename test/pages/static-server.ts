/** A plain server of the build that can be stopped, and that can serve a later edition of the site. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';

const DIST = new URL('../../dist/', import.meta.url).pathname;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm',
  '.pdf': 'application/pdf',
};

export interface StaticServer {
  readonly origin: string;
  /** Serves a home page with another heading, and a service worker that knows of it. */
  newEdition(): void;
  /** Nothing answers any more: as if the network were cut. */
  stop(): Promise<void>;
}

/** Of these a static host sends gzip; pictures and the PDF are packed already. */
const PACKED = /\.(html|js|css|svg|json|webmanifest|wasm)$/;

/**
 * @param base where the folder's files are served, as a host does that has other sites too; it ends in a slash
 * @param isPacked text goes out the way a static host sends it
 */
export async function startServer({ folder = DIST, base = '/', isPacked = false } = {}): Promise<StaticServer> {
  let edition = 1;
  const server = createServer((request, response) => {
    const address = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const path = address.startsWith(base) ? address.slice(base.length - 1) : null;
    const file = path && fileIn(folder, path);
    if (!file) {
      response.writeHead(404).end('not here');
      return;
    }
    const type = TYPES[extname(file)] ?? 'application/octet-stream';
    const packing = isPacked && PACKED.test(file) ? { 'content-encoding': 'gzip' } : {};
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache', ...packing });
    const body = edition === 1 ? readFileSync(file) : later(path, file);
    response.end('content-encoding' in packing ? gzipSync(body) : body);
  });
  await new Promise<void>((resolve) => server.listen(0, 'localhost', resolve));
  return {
    origin: `http://localhost:${(server.address() as AddressInfo).port}`,
    newEdition: () => (edition = 2),
    stop: () => stop(server),
  };
}

function fileIn(folder: string, path: string): string | null {
  const file = join(folder, path);
  if (!file.startsWith(folder) || !existsSync(file)) return null;
  if (!statSync(file).isDirectory()) return file;
  return existsSync(join(file, 'index.html')) ? join(file, 'index.html') : null;
}

function later(path: string, file: string): Buffer | string {
  if (path === '/' || path === '/index.html')
    return readFileSync(file, 'utf8').replace(/(<h1[^>]*>)/, '$1Second edition: ');
  if (path !== '/sw.js') return readFileSync(file);
  const changed = readFileSync(file, 'utf8').replace(
    /(url:"index\.html",revision:")[0-9a-f]+|(revision:")[0-9a-f]+(",url:"index\.html")/,
    '$1$2second$3',
  );
  if (!changed.includes('second')) throw new Error('the service worker lists no home page');
  return changed;
}

async function stop(server: Server): Promise<void> {
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
}
