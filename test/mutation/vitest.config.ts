/** The unit tests that judge changes of one folder of `src/core`: those `run.ts` names. */
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const tests = JSON.parse(process.env['MUTATION_TESTS'] ?? '[]') as string[];

/** In the order they are named in: see tests.ts. */
class AsNamed extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => tests.findIndex((test) => moduleId.endsWith(test));
    return Promise.resolve([...files].sort((a, b) => place(a) - place(b)));
  }
}

export default defineConfig({
  test: {
    include: tests,
    sequence: { sequencer: AsNamed },
    setupFiles: ['test/mutation/quick.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    isolate: false,
  },
});
