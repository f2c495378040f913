/** The frames of a preview, one at a time: while one is being looked at the next is made ready, and the others pass. */

import { LOOK_PX } from '../core/capture/glimpse.ts';
import type { Picture } from '../vision/messages.ts';

/**
 * @param look takes over the frame; the next one, taken meanwhile, comes when it settles. It gives how long frames may
 *   pass first, ms: none is taken until then. It must not reject.
 * @returns ends the watching
 */
export function watchFrames(video: HTMLVideoElement, look: (frame: Picture) => Promise<number>): () => void {
  let waiting: Picture | null = null;
  let [isShrinking, isLooking, isOver] = [false, false, false];
  let restUntil = 0;
  const seeFrame = () => {
    if (isOver) return;
    next();
    if (performance.now() < restUntil) return;
    if (isShrinking || waiting || video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA) return;
    isShrinking = true;
    void frameOf(video).then((frame) => {
      isShrinking = false;
      waiting = frame;
      handOn();
    });
  };
  const handOn = () => {
    if (isOver) waiting?.close();
    if (isOver || isLooking || !waiting) return;
    isLooking = true;
    const frame = waiting;
    waiting = null;
    void look(frame).then((millis) => {
      isLooking = false;
      restUntil = performance.now() + millis;
      // What was taken before the rest is old by its end.
      if (millis > 0) {
        waiting?.close();
        waiting = null;
      }
      handOn();
    });
  };
  const next = () => {
    if ('requestVideoFrameCallback' in video) video.requestVideoFrameCallback(seeFrame);
    else requestAnimationFrame(seeFrame);
  };
  next();
  return () => {
    isOver = true;
    handOn();
  };
}

/** Null while the video has nothing to show. */
async function frameOf(video: HTMLVideoElement): Promise<Picture | null> {
  try {
    // As it lies there: the worker makes it smaller, and the page stays free.
    if ('VideoFrame' in globalThis) return new VideoFrame(video);
  } catch {
    // Not every browser makes one of a video.
  }
  return shrunk(video);
}

async function shrunk(video: HTMLVideoElement): Promise<ImageBitmap | null> {
  const factor = Math.min(1, LOOK_PX / Math.max(video.videoWidth, video.videoHeight));
  const [resizeWidth, resizeHeight] = [video.videoWidth, video.videoHeight].map((px) => Math.round(px * factor));
  try {
    return await createImageBitmap(video, {
      resizeWidth: resizeWidth!,
      resizeHeight: resizeHeight!,
      resizeQuality: 'medium',
    });
  } catch {
    return null;
  }
}
