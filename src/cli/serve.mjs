// Serves the build on this machine, the way a host should: types, caching and headers as the README asks for.
import { createHash } from 'node:crypto';
import { createServer } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import sirv from 'sirv';
import { root } from './install.mjs';

const DIST = join(root, 'dist');
/** So that a second start knows the first: which folder is served, without naming it. */
const MARK = createHash('sha256').update(root).digest('hex').slice(0, 16);
const LOOPBACK = ['127.0.0.1', '::1'];
const HOW_MANY_PORTS = 20;

/**
 * Serves `dist/` on the port, or on one of the next where that is taken and nobody asked for it by number.
 * @param {{ port: number, isChosen: boolean, isForPhone: boolean, base: string }} options base begins and ends in a slash
 * @returns {Promise<{ port: number, isNew: boolean } | { trouble: string }>} not new: it is served from here already
 */
export async function serveBuild({ port: first, isChosen, isForPhone, base }) {
  const handle = handler(base);
  for (let port = first; port < first + (isChosen ? 1 : HOW_MANY_PORTS) && port < 65536; port += 1) {
    const there = await whoIsAt(port, isForPhone);
    if (there === 'we') return { port, isNew: false };
    if (there === 'another') continue;
    const trouble = await listen(handle, port, isForPhone ? ['::'] : LOOPBACK);
    if (trouble === null) return { port, isNew: true };
    if (trouble === 'EACCES') return { trouble: `Port ${port} is for the system alone: choose one above 1023.` };
    if (trouble !== 'EADDRINUSE') return { trouble: `Port ${port} can't be opened (${trouble}).` };
  }
  const taken = isChosen ? `Port ${first} is` : `Ports ${first} to ${first + HOW_MANY_PORTS - 1} are`;
  return { trouble: `${taken} in use by another program: choose one with "npm start -- --port NUMBER".` };
}

/** IPv4 addresses of this machine in its networks. */
export function networkAddresses() {
  return Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ family, internal, address }) => family === 'IPv4' && !internal && !address.startsWith('169.254.'))
    .map(({ address }) => address);
}

function handler(base) {
  const files = sirv(DIST, { dev: true, etag: true, setHeaders: setCaching });
  return (request, response) => {
    response.setHeader('x-dipwise-folder', MARK);
    response.setHeader('content-security-policy', "frame-ancestors 'none'");
    response.setHeader('x-content-type-options', 'nosniff');
    if (!request.url.startsWith(base)) {
      response.writeHead(302, { location: base }).end();
      return;
    }
    request.url = request.url.slice(base.length - 1);
    files(request, response, () => response.writeHead(404, { 'content-type': 'text/plain' }).end('Not here.'));
  };
}

/** What has a hash of its content in its name never changes. */
function setCaching(response, path) {
  const caching = path.startsWith('/_astro/') ? 'public, max-age=31536000, immutable' : 'no-cache';
  response.setHeader('Cache-Control', caching);
}

/** Whether somebody answers at a port, and whether it is this very site, for as many devices as it is wanted for. */
async function whoIsAt(port, isForPhone) {
  const open = await Promise.all(LOOPBACK.map((host) => answers(host, port)));
  if (!open.includes(true)) return 'nobody';
  if (isForPhone) return 'another';
  try {
    const response = await fetch(`http://localhost:${port}/`, {
      redirect: 'manual',
      signal: AbortSignal.timeout(2000),
    });
    return response.headers.get('x-dipwise-folder') === MARK ? 'we' : 'another';
  } catch {
    return 'another';
  }
}

function answers(host, port) {
  return new Promise((resolve) => {
    const socket = connect({ host, port, timeout: 1000 });
    const done = (isOpen) => {
      socket.destroy();
      resolve(isOpen);
    };
    socket
      .on('connect', () => done(true))
      .on('error', () => done(false))
      .on('timeout', () => done(false));
  });
}

/** @returns what went wrong, or null */
async function listen(handle, port, hosts) {
  const servers = [];
  for (const host of hosts) {
    const server = createServer(handle);
    const trouble = await new Promise((resolve) => {
      server.once('error', ({ code }) => resolve(code ?? 'no reason given'));
      server.listen({ port, host }, () => resolve(null));
    });
    if (trouble === null) servers.push(server);
    // A machine may have one of the two kinds of addresses only.
    else if (['EADDRNOTAVAIL', 'EAFNOSUPPORT'].includes(trouble)) {
      if (host === '::') return listen(handle, port, ['0.0.0.0']);
    } else {
      for (const other of servers) other.close();
      return trouble;
    }
  }
  return servers.length ? null : 'no address of its own';
}
