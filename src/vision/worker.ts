/// <reference lib="webworker" />
import { LOOK_PX } from '../core/capture/glimpse.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { shrinkFactor } from './card/grey.ts';
import { blocksAt, openChart, type OpenChart, placesAlong } from './chart/open-chart.ts';
import { shrinkBy } from './huge.ts';
import { openCard } from './open-card.ts';
import type { WorkerRequest, WorkerResponse } from './messages.ts';
import { photoOf, pixelsOf, PixelRoom } from './picture.ts';
import { readInStages, readPhoto } from './read.ts';
import type { ReadStage } from './read-result.ts';
import { warmUpPhoto } from './warm-up.ts';
import { openStrip } from './strip/open-strip.ts';
import { anythingInSlot } from './strip/propose-strip.ts';
import { lookAt } from './track/look.ts';

const port = self as unknown as DedicatedWorkerGlobalScope;

/** Of photos that are read and done with. */
const room = new PixelRoom();
let openedChart: OpenChart | null = null;
/** Planes of a photo of 12 megapixels and a little more: memory is given by the system when it is first written to. */
const USUAL_BYTES = 19_000_000;
/** Readings of the drawn photo: the second takes less than half the time of the first, a third would gain little more. */
const REHEARSALS = 2;
let hasBegun = false;
let hasWork = false;

port.onmessage = ({ data }: MessageEvent<WorkerRequest>) => {
  // What fails in a warm-up fails again in the reading, and is reported then.
  if (data.kind === 'warm-up') return void warmUp(data.scale).catch(() => undefined);
  hasWork = true;
  answer(data).catch((error: unknown) => say({ kind: 'failed', message: String(error) }));
};

say({ kind: 'awake' });

/** Once, and until a real question comes, which waits for one stage at most. */
async function warmUp(scale: StripScale): Promise<void> {
  if (hasBegun || hasWork) return;
  hasBegun = true;
  const photo = warmUpPhoto(scale);
  room.of(USUAL_BYTES).fill(0);
  for (let times = 0; times < REHEARSALS; times++) {
    const stages = readInStages(photo, scale);
    for (let isDone = false; !isDone;) {
      await new Promise((resolve) => setTimeout(resolve));
      if (hasWork) return;
      const { done, value } = stages.next();
      if (done && times === 0) say({ kind: 'rehearsed', reading: value.reading });
      isDone = done ?? false;
    }
  }
}

async function answer(request: Exclude<WorkerRequest, { kind: 'warm-up' }>): Promise<void> {
  switch (request.kind) {
    case 'read': {
      say({ kind: 'stage', stage: 'take-pixels' });
      const { picture, scale, which, phoneSigma } = request;
      const photo = await taken(photoOf(picture, room));
      const onStage = (stage: ReadStage) => say({ kind: 'stage', stage });
      const result = readPhoto(photo, scale, onStage, which, phoneSigma);
      return say({ kind: 'done', result }, result.flat ? [result.flat.data.buffer] : []);
    }
    case 'track': {
      const { picture, scale, isClose } = request;
      const whole = await taken(pixelsOf(picture, room));
      const frame = shrinkBy(whole, shrinkFactor(whole, LOOK_PX));
      return say({ kind: 'tracked', glimpse: lookAt(frame, scale, isClose) });
    }
    case 'open-chart': {
      const pixels = await taken(pixelsOf(request.picture));
      const { chart, reason } = openChart(pixels, true);
      openedChart = chart;
      return say(chart ? { kind: 'chart', found: chart.found } : { kind: 'refused', reason });
    }
    case 'blocks':
      return say({ kind: 'blocks', blocks: blocksAt(theChart(), request.places) });
    case 'row': {
      const { from, to, count } = request;
      return say({ kind: 'blocks', blocks: blocksAt(theChart(), placesAlong(theChart(), from, to, count)) });
    }
    case 'open-strip': {
      const pixels = await taken(pixelsOf(request.picture));
      const { found, reason } = openStrip(pixels, request.padCount);
      return found ? say({ kind: 'strip', found }, [found.flat.data.buffer]) : say({ kind: 'refused', reason });
    }
    case 'open-card': {
      const photo = await taken(pixelsOf(request.picture));
      const { opened, refused } = openCard(photo, { inSlot: anythingInSlot });
      return say(opened ? { kind: 'card', samples: opened.samples } : { kind: 'refused', reason: refused.reason });
    }
  }
}

/** Says so once the picture is copied out and closed. */
async function taken<T>(taking: Promise<T>): Promise<T> {
  const photo = await taking;
  say({ kind: 'taken' });
  return photo;
}

function theChart(): OpenChart {
  if (!openedChart) throw new Error('no chart is open');
  return openedChart;
}

function say(response: WorkerResponse, transfer: Transferable[] = []): void {
  port.postMessage(response, transfer);
}
