import { spawn } from 'node:child_process';
import { globSync } from 'node:fs';
import { createServer } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { type DrivenBrowser, NotHere } from './driven.ts';
import { programFrom } from './packages.ts';

const PACKAGES = ['webkit2gtk-driver', 'xvfb'];
const SCRIPT_MILLIS = 240_000;

/** Debian's WebKitGTK under a screen of its own, over plain WebDriver (W3C). */
export async function startWebkit(): Promise<DrivenBrowser> {
  const driver = programFrom('WebKitWebDriver', PACKAGES);
  const screen = programFrom('Xvfb', PACKAGES);
  const [binary] = globSync('/usr/lib/*/webkit2gtk-4*/MiniBrowser');
  if (!binary) throw new NotHere('WebKitGTK’s MiniBrowser isn’t where Debian puts it');
  const display = `:${80 + (process.pid % 400)}`;
  const port = await freePort();
  const children = [
    spawn(screen, [display, '-screen', '0', '1280x900x24', '-nolisten', 'tcp'], { stdio: 'ignore' }),
    spawn(driver, [`--port=${port}`], {
      env: {
        ...process.env,
        DISPLAY: display,
        LIBGL_ALWAYS_SOFTWARE: '1',
        WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1',
      },
      stdio: 'ignore',
    }),
  ];
  const stop = () => children.reverse().forEach((child) => child.kill());
  try {
    return { ...(await session(`http://127.0.0.1:${port}`, binary, stop)), takeErrors: () => null };
  } catch (error) {
    stop();
    throw error;
  }
}

async function session(driver: string, binary: string, stop: () => void): Promise<Omit<DrivenBrowser, 'takeErrors'>> {
  const capabilities = {
    alwaysMatch: {
      'webkitgtk:browserOptions': {
        binary,
        args: ['--automation'],
      },
      timeouts: { script: SCRIPT_MILLIS, pageLoad: 60_000 },
    },
  };
  const started = (await patiently(() => ask(driver, 'POST', '/session', { capabilities }))) as {
    sessionId: string;
    capabilities: { browserVersion: string };
  };
  const path = `/session/${started.sessionId}`;
  return {
    name: 'WebKit',
    version: started.capabilities.browserVersion,
    open: async (url) => void (await ask(driver, 'POST', `${path}/url`, { url })),
    run: async (work, argument) => {
      const script = `const [argument, done] = arguments;
        (${work.toString()})(argument).then((answer) => done({ answer }), (error) => done({ error: String(error) }));`;
      const said = (await ask(driver, 'POST', `${path}/execute/async`, { script, args: [argument] })) as {
        answer?: never;
        error?: string;
      };
      if (said.error !== undefined) throw new Error(said.error);
      return said.answer!;
    },
    close: async () => {
      await ask(driver, 'DELETE', path).catch(() => undefined);
      stop();
    },
  };
}

async function ask(driver: string, method: string, path: string, body?: object): Promise<unknown> {
  const response = await fetch(driver + path, { method, ...(body && { body: JSON.stringify(body) }) });
  const { value } = (await response.json()) as { value: unknown };
  if (!response.ok) throw new Error(`WebDriver ${path}: ${JSON.stringify(value)}`);
  return value;
}

/** The screen and the driver need a moment to come up. */
async function patiently<T>(attempt: () => Promise<T>): Promise<T> {
  for (let tries = 0; ; tries++) {
    try {
      return await attempt();
    } catch (error) {
      if (tries >= 20) throw error;
      await sleep(500);
    }
  }
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address() as { port: number };
      server.close(() => resolve(address.port));
    });
  });
}
