/// <reference lib="webworker" />
/** Looks at a long logbook beside the page, which stays quick meanwhile. */
import '../zod-setup.ts';
import { type PoolStanding, standingOf, type StandingQuestion } from '../../core/progress/standing.ts';
import { type Trend, trendOf } from '../../core/log/trends.ts';
import { openIdbStore } from './idb-store.ts';

/** All of it, or the trend of another time alone. */
export type StandingRequest =
  | { readonly asks: 'standing'; readonly question: StandingQuestion }
  | { readonly asks: 'trend'; readonly poolId: string; readonly from: string; readonly last: string };

export type StandingAnswer = { readonly done: PoolStanding | Trend } | { readonly failed: string };

const port = self as unknown as DedicatedWorkerGlobalScope;
const nothing = () => undefined;

port.onmessage = ({ data }: MessageEvent<StandingRequest>) => {
  answer(data).then(
    (done) => port.postMessage({ done } satisfies StandingAnswer),
    (error: unknown) => port.postMessage({ failed: String(error) } satisfies StandingAnswer),
  );
};

async function answer(request: StandingRequest): Promise<PoolStanding | Trend> {
  const store = await openIdbStore({ onBlocked: nothing, onTakenOver: nothing, onEmptied: nothing });
  if (request.asks === 'trend') return trendOf(await store.entriesBetween(request.poolId, request.from, request.last));
  const { question } = request;
  return standingOf(await store.entriesBetween(question.pool.id, question.from, question.last), question);
}
