// `npm start`: installs what is missing, builds the site and serves it.
import { ensureInstalled, npm } from './install.mjs';

ensureInstalled();
const built = npm('run', '--silent', 'build');
if (built !== 0) process.exit(built);
process.exit(npm('run', '--silent', 'preview', '--', ...process.argv.slice(2)));
