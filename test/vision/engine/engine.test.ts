import { readFile } from 'node:fs/promises';
import { build, type Rolldown } from 'vite';
import { describe, expect, it } from 'vitest';
import { startNodeEngine } from '../../../src/cli/engine.ts';
import { opencvPlugin } from '../../../src/build/opencv-plugin.mjs';
import { type CvFactory, EngineError, type Mat, startEngine, withMats } from '../../../src/vision/engine/opencv.ts';

describe('the engine in Node', () => {
  it('starts and can be awaited', async () => {
    const cv = await startNodeEngine();
    expect(typeof cv.adaptiveThreshold).toBe('function');
  });

  it('installs no process handlers, so that a rejected promise is the caller’s affair', async () => {
    const events = ['unhandledRejection', 'uncaughtException', 'exit'] as const;
    const before = events.map((event) => process.listenerCount(event));
    await startNodeEngine();
    expect(events.map((event) => process.listenerCount(event))).toEqual(before);
  });

  it('says what was wrong in OpenCV’s words', async () => {
    const cv = await startNodeEngine();
    const wrong = () =>
      withMats(cv, (keep) => {
        const empty = keep(new cv.Mat());
        cv.adaptiveThreshold(empty, keep(new cv.Mat()), 255, cv.ADAPTIVE_THRESH_MEAN_C, cv.THRESH_BINARY_INV, 4, 0);
      });
    expect(wrong).toThrow(EngineError);
    expect(wrong).toThrow(/adaptiveThreshold/);
  });

  it('deletes what was kept, also when the work throws', async () => {
    const cv = await startNodeEngine();
    const kept: (Mat & { isDeleted?(): boolean })[] = [];
    expect(() =>
      withMats(cv, (keep) => {
        kept.push(keep(new cv.Mat(8, 8, cv.CV_8UC1)), keep(new cv.Mat()));
        throw new Error('half way');
      }),
    ).toThrow('half way');
    expect(kept.map((mat) => mat.isDeleted?.())).toEqual([true, true]);
  });
});

describe('the Vite plugin', () => {
  it('gives the factory as a module that survives bundling, minifying and strict mode', async () => {
    const bundle = (await build({
      configFile: false,
      logLevel: 'error',
      plugins: [opencvPlugin()],
      build: {
        write: false,
        minify: true,
        rolldownOptions: { input: 'virtual:opencv', preserveEntrySignatures: 'strict' },
      },
    })) as Rolldown.RolldownOutput;
    const { code } = bundle.output[0];
    const { default: factory } = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as {
      default: CvFactory;
    };
    const module = await WebAssembly.compile(await readFile('node_modules/opencv-wasm/opencv.wasm'));
    const cv = startEngine(factory, (imports) => new WebAssembly.Instance(module, imports as WebAssembly.Imports));
    withMats(cv, (keep) => expect(keep(new cv.Mat(3, 5, cv.CV_8UC1)).cols).toBe(5));
  });
});
