/** A plain server of the build that can be stopped, and that can serve a later edition of the site. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';

const DIST = new URL('../../dist/', import.meta.url).pathname;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.pdf': 'application/pdf',
};

export interface StaticServer {
  readonly origin: string;
  /** Serves a home page with another heading, and a service worker that knows of it. */
  newEdition(): void;
  /** Nothing answers any more: as if the network were cut. */
  stop(): Promise<void>;
  /** How the host answers for paths from now on; null where it does as it should. */
  misbehave(fault: FaultAt): void;
}

/**
 * 'page': its home page with status 200, as hosts do that change over. 'truncated': the first half, as if that were all.
 * 'dying': the connection breaks in the middle. 'slow': after a second.
 */
export type HostFault = 'page' | 'truncated' | 'missing' | 'broken' | 'dying' | 'slow';

/** @param isAnew the browser asked past its own cache */
type FaultAt = (path: string, isAnew: boolean) => HostFault | null;

/** Of these a static host sends gzip; pictures and the PDF are packed already. */
const PACKED = /\.(html|js|css|svg|json|webmanifest)$/;

/**
 * @param base where the folder's files are served, as a host does that has other sites too; it ends in a slash
 * @param isPacked text goes out the way a static host sends it
 */
export async function startServer({ folder = DIST, base = '/', isPacked = false } = {}): Promise<StaticServer> {
  let edition = 1;
  let faultAt: FaultAt = () => null;
  const server = createServer((request, response) => {
    const address = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const path = address.startsWith(base) ? address.slice(base.length - 1) : null;
    const file = path && fileIn(folder, path);
    const fault = path && faultAt(path, request.headers['cache-control'] === 'no-cache');
    if (fault && fault !== 'slow') return fail(response, fault, join(folder, 'index.html'), file);
    if (fault) {
      setTimeout(() => send(response, path, file), 1000);
      return;
    }
    send(response, path, file);
  });
  function send(response: ServerResponse, path: string | null, file: string | null): void {
    if (!path || !file) {
      response.writeHead(404).end('not here');
      return;
    }
    const type = TYPES[extname(file)] ?? 'application/octet-stream';
    const packing = isPacked && PACKED.test(file) ? { 'content-encoding': 'gzip' } : {};
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache', ...packing });
    const body = edition === 1 ? readFileSync(file) : later(folder, path, file, edition);
    response.end('content-encoding' in packing ? gzipSync(body) : body);
  }
  await new Promise<void>((resolve) => server.listen(0, 'localhost', resolve));
  return {
    origin: `http://localhost:${(server.address() as AddressInfo).port}`,
    newEdition: () => (edition += 1),
    stop: () => stop(server),
    misbehave: (fault) => (faultAt = fault),
  };
}

function fileIn(folder: string, path: string): string | null {
  const file = join(folder, path);
  if (!file.startsWith(folder) || !existsSync(file)) return null;
  if (!statSync(file).isDirectory()) return file;
  return existsSync(join(file, 'index.html')) ? join(file, 'index.html') : null;
}

function fail(response: ServerResponse, fault: HostFault, home: string, file: string | null): void {
  const type = file && fault !== 'page' ? (TYPES[extname(file)] ?? 'application/octet-stream') : TYPES['.html']!;
  const body = file ? readFileSync(file) : Buffer.from('');
  const half = body.subarray(0, body.length >> 1);
  // A year, as hosts say of names that hold a hash.
  const headers = { 'content-type': type, 'cache-control': 'max-age=31536000, immutable' };
  if (fault === 'missing') response.writeHead(404, { 'content-type': type }).end('not here');
  else if (fault === 'broken') response.writeHead(500).end('sorry');
  else if (fault === 'truncated') response.writeHead(200, headers).end(half);
  else if (fault === 'page') response.writeHead(200, headers).end(readFileSync(home));
  else response.writeHead(200, { ...headers, 'content-length': body.length }).write(half, () => response.destroy());
}

function later(folder: string, path: string, file: string, edition: number): Buffer | string {
  const home = readFileSync(join(folder, 'index.html'), 'utf8').replace(
    /(<h1[^>]*>)/,
    `$1${edition === 2 ? 'Second edition' : `Edition ${edition}`}: `,
  );
  if (path === '/' || path === '/index.html') return home;
  if (path !== '/sw.js') return readFileSync(file);
  const hash = createHash('sha256').update(home).digest('base64');
  const worker = readFileSync(file, 'utf8');
  const changed = worker.replace(/(\["index\.html",")[^"]+/, `$1${hash}`);
  if (changed === worker) throw new Error('the service worker lists no home page');
  return changed;
}

async function stop(server: Server): Promise<void> {
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
}
