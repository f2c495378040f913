/// <reference lib="webworker" />
import { LOOK_PX } from '../core/capture/glimpse.ts';
import { shrinkFactor } from './card/grey.ts';
import { blocksAt, openChart, type OpenChart, placesAlong } from './chart/open-chart.ts';
import { loadEngine } from './engine/browser.ts';
import { shrinkBy } from './huge.ts';
import type { WorkerRequest, WorkerResponse } from './messages.ts';
import { photoOf, pixelsOf, PixelRoom } from './picture.ts';
import { readPhoto } from './read.ts';
import type { ReadStage } from './read-result.ts';
import { openStrip } from './strip/open-strip.ts';
import { lookAt } from './track/look.ts';

const port = self as unknown as DedicatedWorkerGlobalScope;

/** Of photos that are read and done with. */
const room = new PixelRoom();
let openedChart: OpenChart | null = null;

port.onmessage = ({ data }: MessageEvent<WorkerRequest>) => {
  answer(data).catch((error: unknown) => say({ kind: 'failed', message: String(error) }));
};

async function answer(request: WorkerRequest): Promise<void> {
  switch (request.kind) {
    case 'read': {
      say({ kind: 'stage', stage: 'start-engine' });
      const { picture, scale, which } = request;
      const [cv, photo] = await Promise.all([loadEngine(), photoOf(picture, room)]);
      const onStage = (stage: ReadStage) => say({ kind: 'stage', stage });
      const result = readPhoto(cv, photo, scale, onStage, which);
      return say({ kind: 'done', result }, result.flat ? [result.flat.data.buffer] : []);
    }
    case 'track': {
      const { picture, scale, isClose } = request;
      const cv = await loadEngine();
      const whole = await pixelsOf(picture, room);
      const frame = shrinkBy(whole, shrinkFactor(whole, LOOK_PX));
      return say({ kind: 'tracked', glimpse: lookAt(cv, frame, scale, isClose) });
    }
    case 'open-chart': {
      const { chart, reason } = openChart(await loadEngine(), await pixelsOf(request.picture), true);
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
      const { found, reason } = openStrip(await loadEngine(), await pixelsOf(request.picture), request.padCount);
      return found ? say({ kind: 'strip', found }, [found.flat.data.buffer]) : say({ kind: 'refused', reason });
    }
  }
}

function theChart(): OpenChart {
  if (!openedChart) throw new Error('no chart is open');
  return openedChart;
}

function say(response: WorkerResponse, transfer: Transferable[] = []): void {
  port.postMessage(response, transfer);
}
