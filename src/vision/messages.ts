/** What page and worker say to each other. */
import type { Glimpse } from '../core/capture/glimpse.ts';
import type { Point } from '../core/card/homography.ts';
import type { Reading, RefusalCode } from '../core/reading/reading.ts';
import type { CardSamples } from '../core/samples.ts';
import type { StripScale } from '../core/scale/schema.ts';
import type { ChartFound } from './chart/open-chart.ts';
import type { BlockFound, BlockSearch } from './chart/sample-block.ts';
import type { ReadResult, ReadStage, Seen } from './read-result.ts';
import type { Picture } from './picture.ts';
import type { StripFound } from './strip/open-strip.ts';
import type { ProposedPad, ProposedStrip } from './strip/propose-strip.ts';

export type {
  BlockFound,
  BlockSearch,
  ChartFound,
  Picture,
  ProposedPad,
  ProposedStrip,
  ReadResult,
  ReadStage,
  Seen,
  StripFound,
};

/** Pictures are handed over: the sender can't use them any more. */
export type WorkerRequest =
  /** Gets ready for a photo that may come; answered where none comes first. */
  | { readonly kind: 'warm-up'; readonly scale: StripScale }
  | {
      readonly kind: 'read';
      readonly picture: Picture;
      readonly scale: StripScale;
      readonly which: number | null;
      readonly phoneSigma: number;
    }
  /** One frame of the preview; `isClose` looks at light, strip and glare as well. */
  | { readonly kind: 'track'; readonly picture: Picture; readonly scale: StripScale; readonly isClose: boolean }
  /** The photo is kept for the questions that follow, until another chart is opened. */
  | { readonly kind: 'open-chart'; readonly picture: Picture }
  /** Places in the photo, px. */
  | { readonly kind: 'blocks'; readonly places: readonly Point[] }
  | { readonly kind: 'row'; readonly from: Point; readonly to: Point; readonly count: number }
  | { readonly kind: 'open-strip'; readonly picture: Picture; readonly padCount: number }
  /** An empty card, to be looked at for its own sake. */
  | { readonly kind: 'open-card'; readonly picture: Picture };

export type WorkerResponse =
  /** The script has come and runs; said once, before anything is asked. */
  | { readonly kind: 'awake' }
  /** The picture has been copied out and closed: the worker may be ended. */
  | { readonly kind: 'taken' }
  /** The drawn photo was read for the first time. */
  | { readonly kind: 'rehearsed'; readonly reading: Reading }
  | { readonly kind: 'stage'; readonly stage: ReadStage }
  | { readonly kind: 'tracked'; readonly glimpse: Glimpse }
  | { readonly kind: 'done'; readonly result: ReadResult }
  | { readonly kind: 'chart'; readonly found: ChartFound }
  | { readonly kind: 'blocks'; readonly blocks: readonly BlockSearch[] }
  | { readonly kind: 'strip'; readonly found: StripFound }
  | { readonly kind: 'card'; readonly samples: CardSamples }
  | { readonly kind: 'refused'; readonly reason: RefusalCode }
  | { readonly kind: 'failed'; readonly message: string };
