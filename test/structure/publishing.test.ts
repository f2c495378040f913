import { existsSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';

interface Step {
  readonly uses?: string;
  readonly run?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly with?: Readonly<Record<string, string | number>>;
}

interface Workflow {
  readonly permissions: Readonly<Record<string, string>>;
  readonly jobs: Readonly<Record<string, { needs?: string; permissions?: Record<string, string>; steps: Step[] }>>;
}

const workflow = parse(readFileSync('.github/workflows/publish.yml', 'utf8')) as Workflow;
const scripts = (JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }).scripts;
const steps = Object.values(workflow.jobs).flatMap((job) => job.steps);

it('publishes only what was tested and built before', () => {
  const { test, build, publish } = workflow.jobs;
  expect([test?.needs, build?.needs, publish?.needs]).toEqual([undefined, 'test', 'build']);
  expect(test!.steps.map(({ run }) => run)).toContain('npm test');
});

it('runs commands that there are, and builds for the path that the host gives', () => {
  for (const { run } of steps) {
    const script = run && /^npm (?:run )?(\S+)$/.exec(run)?.[1];
    if (script && script !== 'ci') expect(Object.keys(scripts)).toContain(script);
  }
  const build = steps.find(({ run }) => run === 'npm run build');
  expect(build?.env?.['BASE_PATH']).toContain('steps.pages.outputs.base_path');
  expect(steps.find(({ uses }) => uses?.startsWith('actions/upload-pages-artifact'))?.with?.['path']).toBe('dist');
});

it('lets only the last job write, and only to the host’s pages', () => {
  expect(workflow.permissions).toEqual({ contents: 'read' });
  for (const [name, { permissions = {} }] of Object.entries(workflow.jobs)) {
    const writes = Object.entries(permissions).filter(([, right]) => right === 'write');
    expect(writes.map(([what]) => what)).toEqual(name === 'publish' ? ['pages', 'id-token'] : []);
  }
});

it('copies into the container what there is', () => {
  const lines = readFileSync('.container/Containerfile', 'utf8').split('\n');
  const copied = lines.filter((line) => /^COPY (?!--from)/.test(line)).flatMap((line) => line.split(' ').slice(1, -1));
  expect(copied).toContain('.container/nginx.conf');
  for (const file of copied) expect(existsSync(file), file).toBe(true);
});

it('sends from the container the headers that the README asks for', () => {
  const settings = readFileSync('.container/nginx.conf', 'utf8');
  expect(settings).toContain('add_header Content-Security-Policy "frame-ancestors \'none\'" always;');
  expect(settings).toMatch(/~\/_astro\/ "public, max-age=31536000, immutable";\s+default "no-cache";/);
  expect(settings).toMatch(/gzip_types .*text\/javascript/);
});
