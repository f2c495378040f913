/// <reference types="vite/client" />
import { describe, expect, it } from 'vitest';
import { ask, endWorker } from '../../src/browser/vision-worker.ts';

/** A worker that says what it is told to. */
class SilentWorker {
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onerror: unknown = null;
  onmessageerror: unknown = null;
  ended = false;
  postMessage(): void {
    // Says nothing of its own.
  }
  terminate(): void {
    this.ended = true;
  }
}

function asking(signal = new AbortController().signal) {
  const worker = new SilentWorker();
  const request = { kind: 'blocks', places: [] } as const;
  const answer = ask(worker as unknown as Worker, request, [], signal, (response) =>
    response.kind === 'blocks' ? 'answered' : undefined,
  );
  return { worker, answer };
}

describe('a question to a worker', () => {
  it('is answered', async () => {
    const { worker, answer } = asking();
    worker.onmessage!({ data: { kind: 'stage', stage: 'flatten' } });
    worker.onmessage!({ data: { kind: 'blocks', blocks: [] } });
    expect(await answer).toBe('answered');
  });

  it('is given up where the worker is ended, so that nobody waits for ever', async () => {
    const { worker, answer } = asking();
    endWorker(worker as unknown as Worker);
    await expect(answer).rejects.toMatchObject({ name: 'AbortError' });
    expect(worker.ended).toBe(true);
    expect(worker.onmessage).toBeNull();
  });

  it('is given up where it is cancelled, before or after it was put', async () => {
    await expect(asking(AbortSignal.abort()).answer).rejects.toMatchObject({ name: 'AbortError' });
    const cancelling = new AbortController();
    const { answer } = asking(cancelling.signal);
    cancelling.abort();
    await expect(answer).rejects.toMatchObject({ name: 'AbortError' });
  });

  it('fails with what the worker says', async () => {
    const { worker, answer } = asking();
    worker.onmessage!({ data: { kind: 'failed', message: 'no room' } });
    await expect(answer).rejects.toThrow('no room');
    // Ended afterwards: there is nobody left to tell.
    expect(() => endWorker(worker as unknown as Worker)).not.toThrow();
  });
});
