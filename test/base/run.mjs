// `npm run base`: builds the site for a path of a host into a folder of its own, and walks it there in a browser.
import { ensureInstalled, npm } from '../../src/cli/install.mjs';

ensureInstalled();
const { ensureChromium } = await import('../browser.mjs');
ensureChromium();

// Inside node_modules: the build runs from where it lies, and looks its packages up from there.
process.env.BASE_FOLDER = 'node_modules/.cache/base-path';
// Without a slash at its end, as people write it.
process.env.BASE_PATH = '/garden';
const built = npm('run', '--silent', 'build', '--', '--outDir', process.env.BASE_FOLDER);
if (built !== 0) process.exit(built);
const config = ['--config', 'test/config/base.config.ts'];
process.exit(npm('exec', '--', 'playwright', 'test', ...config, ...process.argv.slice(2)));
