#!/usr/bin/env node
// `dipwise COMMAND ...`: the commands by name, where the package is installed.
import { EXIT } from './output.ts';

const COMMANDS: Readonly<Record<string, () => Promise<unknown>>> = {
  card: () => import('./card.ts'),
  read: () => import('./read.ts'),
  teach: () => import('./teach.ts'),
  water: () => import('./water.ts'),
  plan: () => import('./plan.ts'),
  now: () => import('./now.ts'),
};

const name = process.argv[2] ?? '';
const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
if (command) {
  // It finds its own arguments where they would stand without this.
  process.argv.splice(2, 1);
  await command();
} else {
  const isHelp = ['--help', '-h'].includes(name);
  const usage = `Usage: dipwise COMMAND ...\nCommands: ${Object.keys(COMMANDS).join(', ')}; README.md says what each does.`;
  if (isHelp) console.log(usage);
  else {
    console.error(name === '' ? usage : `There is no command '${name}'.\n${usage}`);
    process.exitCode = EXIT.wrongUse;
  }
}
