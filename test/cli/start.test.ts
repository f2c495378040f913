import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, it } from 'vitest';

/** `npm start` without the build: what happens once there is one. */
const COMMAND = ['src/cli/start.mjs', '--built'];

const running: ChildProcess[] = [];

afterEach(() => {
  for (const { pid } of running.splice(0)) {
    try {
      process.kill(-pid!, 'SIGKILL');
    } catch {
      // It has ended: what most of these tests are about.
    }
  }
});

it('has a build to serve', () => {
  expect(existsSync('dist/index.html'), 'run `npm run build` first').toBe(true);
});

it('prints one address, and serves the site there', async () => {
  const port = await freePort();
  const site = await start('--port', String(port));
  expect(site.said().match(/http:\/\/\S+/g)).toEqual([`http://localhost:${port}/`]);
  const response = await fetch(`http://localhost:${port}/read/`);
  expect(response.status).toBe(200);
  expect(response.headers.get('content-security-policy')).toBe("frame-ancestors 'none'");
  expect(await response.text()).toContain('<h1');
  expect((await fetch(`http://localhost:${port}/nowhere/`)).status).toBe(404);
});

it('knows at a second start that the site is served already', async () => {
  const port = await freePort();
  await start('--port', String(port));
  const second = await ended(run('--port', String(port)));
  expect(second.code).toBe(0);
  expect(second.said.trim().split('\n')).toEqual([`Dipwise is served already: http://localhost:${port}/`]);
});

it('says in a sentence that the port asked for is another program’s', async () => {
  await withAnother(async (port) => {
    const { code, said } = await ended(run('--port', String(port)));
    expect(code).toBe(1);
    expect(said.trim()).toBe(
      `Port ${port} is in use by another program: choose one with "npm start -- --port NUMBER".`,
    );
  });
});

it.each([['--port', 'x'], ['--port', '70000'], ['--colour'], ['dist']])(
  'says what it wanted instead of %s %s',
  async (...args) => {
    const { code, said } = await ended(run(...args));
    expect(code).toBe(1);
    expect(said).not.toMatch(/\n\s+at |Error:/);
    expect(said.trim().length).toBeGreaterThan(20);
  },
);

it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
  'ends with %s to its terminal, and leaves no server',
  async (signal) => {
    const port = await freePort();
    const { child, said } = await start('--port', String(port));
    process.kill(-child.pid!, signal);
    const [code] = (await once(child, 'exit')) as [number | null];
    expect(code).toBe(0);
    expect(said()).not.toMatch(/\n\s+at |Error/);
    await expect(fetch(`http://localhost:${port}/`)).rejects.toThrow();
  },
);

it('ends when what started it is killed without a word', async () => {
  const port = await freePort();
  // A shell that stays, as npm does; the `:` keeps it from handing itself over to node.
  const shell = spawn('sh', ['-c', `"${process.execPath}" ${COMMAND.join(' ')} --port ${port}; :`], { detached: true });
  running.push(shell);
  await spoken(shell, /Ctrl\+C/);
  process.kill(shell.pid!, 'SIGKILL');
  await expect
    .poll(
      () =>
        fetch(`http://localhost:${port}/`).then(
          () => 'serves',
          () => 'has ended',
        ),
      { timeout: 20_000 },
    )
    .toBe('has ended');
});

it('gives a phone an address when it is asked to, with a word on HTTPS', async () => {
  const port = await freePort();
  const { said } = await start('--phone', '--port', String(port));
  expect(said()).toMatch(/On a phone in the same network: http:\/\/[\d.]+:\d+\/|in no network/);
  const [address] = /http:\/\/\d[\d.]+:\d+\//.exec(said()) ?? [];
  if (!address) return;
  expect(said()).toContain('HTTPS');
  expect((await fetch(address)).status).toBe(200);
});

function run(...args: string[]): ChildProcess {
  const child = spawn(process.execPath, [...COMMAND, ...args], { detached: true });
  running.push(child);
  return child;
}

async function start(...args: string[]) {
  const child = run(...args);
  return {
    child,
    said: await spoken(child, /HTTPS|no network|Ctrl\+C/, args.includes('--phone') ? /HTTPS|no network/ : /Ctrl\+C/),
  };
}

/** Everything it says, from when it has said what is waited for. */
function spoken(child: ChildProcess, ...wanted: RegExp[]): Promise<() => string> {
  let all = '';
  return new Promise((resolve, reject) => {
    for (const stream of [child.stdout!, child.stderr!]) {
      stream.on('data', (text) => {
        all += String(text);
        if (wanted.every((words) => words.test(all))) resolve(() => all);
      });
    }
    child.on('exit', (code) => reject(new Error(`ended with ${code}: ${all}`)));
  });
}

async function ended(child: ChildProcess): Promise<{ code: number | null; said: string }> {
  let said = '';
  for (const stream of [child.stdout!, child.stderr!]) stream.on('data', (text) => (said += String(text)));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, said };
}

/** While another program has a port. */
async function withAnother(use: (port: number) => Promise<void>): Promise<void> {
  const server = createServer((_, response) => response.end('something else'));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  await use((server.address() as AddressInfo).port);
  server.close();
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}
