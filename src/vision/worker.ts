/// <reference lib="webworker" />
import { bitmapToPixels } from './bitmap.ts';
import { loadEngine } from './engine/browser.ts';
import type { WorkerRequest, WorkerResponse } from './messages.ts';
import { readPhoto } from './read.ts';

const port = self as unknown as DedicatedWorkerGlobalScope;

port.onmessage = ({ data }: MessageEvent<WorkerRequest>) => {
  answer(data).catch((error: unknown) => say({ kind: 'failed', message: String(error) }));
};

async function answer({ bitmap, scale }: WorkerRequest): Promise<void> {
  say({ kind: 'stage', stage: 'start-engine' });
  const cv = await loadEngine();
  const result = readPhoto(cv, bitmapToPixels(bitmap), scale, (stage) => say({ kind: 'stage', stage }));
  say({ kind: 'done', result }, result.flat ? [result.flat.data.buffer] : []);
}

function say(response: WorkerResponse, transfer: Transferable[] = []): void {
  port.postMessage(response, transfer);
}
