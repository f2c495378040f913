// `npm run faults -- [STEPS] [--seed N]`: the fault run of the page tests at another length; needs the build.
import { spawnSync } from 'node:child_process';
import { parseArgs } from 'node:util';
import { npmCommand } from '../../src/cli/install.mjs';

const { values, positionals } = parseArgs({ allowPositionals: true, options: { seed: { type: 'string' } } });
const steps = Number(positionals[0] ?? 500);
const seed = Number(values.seed ?? 1);
if (!(Number.isInteger(steps) && steps > 0 && Number.isInteger(seed) && seed >= 0)) {
  console.error('Use: npm run faults -- [STEPS] [--seed N], both whole numbers');
  process.exit(2);
}
const { command, args, options } = npmCommand('run', '--silent', 'pages', '--', 'faults', '--workers', '1');
const env = { ...process.env, ONLY_RELEASE: '1', FAULT_STEPS: String(steps), FAULT_SEED: String(seed) };
process.exit(spawnSync(command, args, { ...options, env, stdio: 'inherit' }).status ?? 1);
