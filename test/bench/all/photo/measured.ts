/** What is measured of one photo in one place, page or Node. */
import { median, type Spread } from '../section.ts';
import type { SizedPhoto } from './photos.ts';

export interface StageFigure {
  readonly stage: string;
  /** Medians, ms. */
  readonly warm: number;
  readonly cold: number;
  /** In a page that was ready; in the page alone. */
  readonly prepared?: number;
  /** Held at most in a cold first reading beyond what was held before, MB; NaN where it wasn't seen. */
  readonly overMB: number;
}

export interface Measured {
  readonly photo: SizedPhoto;
  /** Medians, ms: the plain decode, and photo to values with the engine warm and in a fresh page or process. */
  readonly decode: number;
  readonly warm: number;
  readonly cold: number;
  /** The same in a page that was ready for it, ms; in the page alone. */
  readonly prepared?: number;
  /** Over the plain decode that was measured beside it in the same round. */
  readonly times: { readonly warm: Spread; readonly cold: Spread; readonly prepared?: Spread };
  /** Of a cold first reading; NaN where it can't be measured. */
  readonly beforeMB: number;
  readonly peakMB: number;
  readonly stages: readonly StageFigure[];
}

interface Named {
  readonly stage: string;
}

/** Median over runs of something of a stage; NaN where no run has it. */
export function overRuns<T extends Named>(
  runs: readonly (readonly T[])[],
  stage: string,
  of: (one: T) => number,
): number {
  return median(
    runs
      .map((run) => run.find((one) => one.stage === stage))
      .flatMap((one) => (one ? [of(one)] : []))
      .filter(Number.isFinite),
  );
}
