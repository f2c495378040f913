/** The frames of a preview, one at a time: while one is being looked at the others pass, and the newest comes next. */

/** Long side of what is looked at, px. */
const LOOK_PX = 640;

/**
 * @param look takes over the frame; nothing more comes until it settles. It must not reject.
 * @returns ends the watching
 */
export function watchFrames(video: HTMLVideoElement, look: (frame: ImageBitmap) => Promise<void>): () => void {
  let isBusy = false;
  let isOver = false;
  const seeFrame = () => {
    if (isOver) return;
    next();
    if (isBusy || video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA) return;
    isBusy = true;
    void shrunk(video)
      .then((frame) => (isOver ? frame?.close() : frame && look(frame)))
      .finally(() => (isBusy = false));
  };
  const next = () => {
    if ('requestVideoFrameCallback' in video) video.requestVideoFrameCallback(seeFrame);
    else requestAnimationFrame(seeFrame);
  };
  next();
  return () => (isOver = true);
}

/** Null while the video has nothing to show. */
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
