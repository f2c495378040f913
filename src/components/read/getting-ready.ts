/** What gets ready for a photo that may come: the reader while the page rests, the sheet while the visitor looks elsewhere. */
import type { VisionClient } from '../../browser/worker-client.ts';
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { sheetParts } from './sheet-parts.ts';

/** A page that has just come has its own scripts to run, and on a slow phone the reader would take the processor from them. */
export const REST_MILLIS = 1000;

/** What was read of the drawn photo. */
interface Drawn {
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
}

export class GettingReady {
  readonly #client: VisionClient;
  #onDrawn!: (drawn: Drawn) => void;
  readonly #drawn = new Promise<Drawn>((resolve) => (this.#onDrawn = resolve));
  #isExpecting = false;
  #isReading = false;

  constructor(client: VisionClient) {
    this.#client = client;
  }

  /** In its own thread. */
  atRest(scale: StripScale): void {
    this.#client.warmUp(scale, (outcome) => this.#onDrawn({ outcome, scale }));
  }

  /** A photo is looked for, or the strip waits: the page's thread may be busy for a moment too. */
  expecting(scale: StripScale): void {
    this.atRest(scale);
    sheetParts().catch(() => undefined);
    if (this.#isExpecting) return;
    this.#isExpecting = true;
    this.#drawn
      .then(async (drawn) => {
        if (!this.#isReading) (await import('./rehearse-sheet.ts')).rehearseSheet(drawn.outcome, drawn.scale);
      })
      // What fails here fails again with the sheet, and is told then.
      .catch(() => undefined);
  }

  /** A photo is being decoded. */
  reading(scale: StripScale): void {
    this.#isReading = true;
    sheetParts().catch(() => undefined);
    this.atRest(scale);
  }
}
