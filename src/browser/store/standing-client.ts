/** The page's side of a look at a long logbook: a worker for each. */
import type { Trend } from '../../core/log/trends.ts';
import type { PoolStanding, StandingQuestion } from '../../core/progress/standing.ts';
import type { StandingAnswer, StandingRequest } from './standing-worker.ts';
import workerUrl from './standing-worker.ts?worker&url';

export function standingBeside(question: StandingQuestion): Promise<PoolStanding> {
  return ask<PoolStanding>({ asks: 'standing', question });
}

export function trendBeside(poolId: string, from: string, last: string): Promise<Trend> {
  return ask<Trend>({ asks: 'trend', poolId, from, last });
}

async function ask<Answer>(request: StandingRequest): Promise<Answer> {
  const worker = new Worker(workerUrl, { type: 'module', name: 'logbook' });
  try {
    return await new Promise<Answer>((resolve, reject) => {
      worker.onerror = (event) => reject(new Error(event.message || 'the worker could not be started'));
      worker.onmessage = ({ data }: MessageEvent<StandingAnswer>) => {
        if ('done' in data) resolve(data.done as Answer);
        else reject(new Error(data.failed));
      };
      worker.postMessage(request);
    });
  } finally {
    worker.terminate();
  }
}
