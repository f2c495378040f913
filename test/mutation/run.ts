// `npm run mutate [-- FOLDER|FILE...] [--force]`: changes the code of `src/core` bit by bit, to see which test notices.
import { spawnSync } from 'node:child_process';
import { existsSync, globSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { npmCommand, root } from '../../src/cli/install.mjs';
import { isNoticed, printSurvivors, printTable, type Report } from './summary.ts';
import { testsOf } from './tests.ts';

const home = fileURLToPath(new URL('.', import.meta.url));
/** Results stay here, so that a further run looks only at what changed. (Browser tests empty `test-results`.) */
const kept = join(root, 'node_modules/.cache/mutation');

const { positionals: asked, values } = parseArgs({
  allowPositionals: true,
  options: {
    force: { type: 'boolean', default: false },
    sample: { type: 'string' },
    seed: { type: 'string', default: '2026' },
  },
});
/** So many percent of the changes, drawn at random: see sample.mjs. */
const sample = values.sample === undefined ? null : Number(values.sample);
if (sample !== null && !(sample > 0 && sample < 100)) throw new RangeError('--sample is a percentage');

process.chdir(root);
ensureTool();
mkdirSync(kept, { recursive: true });
const reports = [...byFolder(asked.length > 0 ? asked : ['']).entries()].map(([folder, files]) =>
  mutate(folder, files),
);
printSurvivors(reports);
printTable(reports);

/** 60 MB that few need: a package of its own, which finds the project's vitest in the folder above. */
function ensureTool() {
  const lock = join(home, 'package-lock.json');
  const installed = join(home, 'node_modules/.package-lock.json');
  if (existsSync(installed) && statSync(installed).mtimeMs >= statSync(lock).mtimeMs) return;
  console.log('Installing the tool (once)...');
  const { command, args, options } = npmCommand('ci');
  finish(spawnSync(command, args, { ...options, cwd: home, stdio: 'inherit' }));
}

/** `dip`, `water/plan` or `src/core/math/slope.ts`: the source files, by the folder of `src/core` they lie in. */
function byFolder(paths: readonly string[]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const path of paths) {
    const inCore = join('src/core', path.replace(/^src[\\/]core[\\/]?/, ''));
    if (!existsSync(inCore)) throw new Error(`There is no ${inCore}`);
    const files = statSync(inCore).isDirectory() ? globSync(join(inCore, '**/*.ts')) : [inCore];
    for (const file of files.map((one) => one.replaceAll('\\', '/')).sort()) {
      const folder = file.split('/')[2]!;
      found.set(folder, [...(found.get(folder) ?? []), file]);
    }
  }
  return new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function mutate(folder: string, files: readonly string[]): Report {
  console.log(`\n== ${folder}`);
  const name = sample === null ? folder : `${folder}.sample-${values.seed}`;
  const report = join(kept, `${name}.json`);
  const config = join(kept, `${name}.config.json`);
  const before = join(kept, `${name}.incremental.json`);
  forgetUnnoticed(before, files);
  writeFileSync(config, JSON.stringify(settings(files, report, before)));
  const tool = join(home, 'node_modules/@stryker-mutator/core/bin/stryker.js');
  const env = {
    ...process.env,
    MUTATION_TESTS: JSON.stringify(testsOf(folder)),
    MUTATION_SAMPLE: String(sample),
    MUTATION_SEED: values.seed,
  };
  finish(spawnSync(process.execPath, [tool, 'run', config], { cwd: root, stdio: 'inherit', env }));
  return { folder, ...(JSON.parse(readFileSync(report, 'utf8')) as Pick<Report, 'files'>) };
}

/** What was noticed once is noticed still; what wasn't is tried again: the tool can't say which tests reach a constant. */
function forgetUnnoticed(path: string, files: readonly string[]): void {
  if (!existsSync(path)) return;
  const kept = JSON.parse(readFileSync(path, 'utf8')) as { files: Record<string, { mutants: { status: string }[] }> };
  for (const file of files) {
    const before = kept.files[file];
    if (before) before.mutants = before.mutants.filter(({ status }) => isNoticed(status));
  }
  writeFileSync(path, JSON.stringify(kept));
}

function settings(files: readonly string[], report: string, incrementalFile: string) {
  const built = ['/dist', '/public', '/sample-images', '/.astro', '/test-results', '/test/pages', '/test/pictures'];
  return {
    mutate: files,
    plugins: ['@stryker-mutator/vitest-runner', join(home, 'ignore.mjs'), join(home, 'sample.mjs')],
    ignorers: ['prose'],
    checkers: sample === null ? [] : ['sample'],
    testRunner: 'vitest',
    // Choosing tests by their imports, anew for each change, takes longer than running them.
    vitest: { configFile: 'test/mutation/vitest.config.ts', related: false },
    coverageAnalysis: 'perTest',
    concurrency: 1,
    // An endless loop is counted, not waited for; this is for a busy machine, where less takes slowness for notice.
    timeoutMS: 60_000,
    incremental: true,
    force: values.force,
    incrementalFile,
    reporters: ['progress-append-only', 'json'],
    jsonReporter: { fileName: report },
    tempDirName: 'test-results/mutation',
    ignorePatterns: built,
    allowConsoleColors: false,
  };
}

function finish({ error, status }: { readonly error?: Error; readonly status: number | null }) {
  if (error) throw error;
  if (status !== 0) process.exit(status ?? 1);
}
