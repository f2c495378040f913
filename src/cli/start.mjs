// `npm start`: installs what is missing, builds the site and serves it, until Ctrl+C or the end of the terminal.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureInstalled, npm, root } from './install.mjs';

const USAGE = `Use: npm start -- [--port NUMBER] [--phone] [--built]
  --port    the port to serve at; otherwise 4321 or the next that is free
  --phone   for other devices in the same network too
  --built   serve what was built before`;

const options = read(process.argv.slice(2));
endWithTerminal();
// To serve what is there nothing is renewed.
if (!options.built || !existsSync(join(root, 'node_modules', 'sirv'))) ensureInstalled();
if (!options.built) {
  const built = npm('run', '--silent', 'build');
  if (built !== 0) process.exit(built);
} else if (!existsSync(join(root, 'dist', 'index.html'))) {
  fail('Nothing has been built yet: leave --built out.');
}
// Only now: what it needs may just have been installed.
const { networkAddresses, serveBuild } = await import('./serve.mjs');
const base = `/${(process.env.BASE_PATH ?? '').replace(/^\/|\/$/g, '')}/`.replace('//', '/');
const served = await serveBuild({
  port: options.port ?? 4321,
  isChosen: options.port !== null,
  isForPhone: options.phone,
  base,
});
if (served.trouble) fail(served.trouble);
const address = (host) => `http://${host}:${served.port}${base}`;
if (!served.isNew) {
  console.log(
    `\nDipwise is served already${options.built ? '' : ', and has just been renewed'}: ${address('localhost')}`,
  );
  process.exit(0);
}
console.log(`\nDipwise is at ${address('localhost')}  (Ctrl+C ends it)`);
if (options.phone) tellPhone();

function read(args) {
  try {
    const { values } = parseArgs({
      args,
      options: {
        port: { type: 'string' },
        phone: { type: 'boolean' },
        built: { type: 'boolean' },
        help: { type: 'boolean' },
      },
    });
    if (values.help) {
      console.log(USAGE);
      process.exit(0);
    }
    const port = values.port === undefined ? null : Number(values.port);
    if (port !== null && !(Number.isInteger(port) && port > 0 && port < 65536)) {
      fail(`A port is a whole number from 1 to 65535, not "${values.port}".`);
    }
    return { port, phone: values.phone ?? false, built: values.built ?? false };
  } catch (error) {
    if (!error.code?.startsWith('ERR_PARSE_ARGS')) throw error;
    return fail(`${error.message.split('. ')[0]}.\n${USAGE}`);
  }
}

function tellPhone() {
  const [first, ...others] = networkAddresses();
  if (!first) {
    console.log('This machine is in no network that a phone could reach it by.');
    return;
  }
  console.log(`On a phone in the same network: ${[first, ...others].map(address).join(' or ')}`);
  console.log(
    'Without HTTPS its browser gives neither the live camera nor use without a network; photos can be taken and chosen.',
  );
}

/** Ctrl+C, a closed terminal, or the end of the npm that started this: no server is left behind. */
function endWithTerminal() {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => process.exit(0));
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) process.exit(0);
  }, 500).unref();
}

function fail(sentence) {
  console.error(sentence);
  process.exit(1);
}
