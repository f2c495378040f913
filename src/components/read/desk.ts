/** Where a photo comes in and a reading comes out: the element behind the read page. */
import { decodedAs, decodePhoto } from '../../browser/decode.ts';
import { dipClock } from '../../browser/dip-clock.ts';
import { whenIdle } from '../../browser/when-idle.ts';
import { takeSharedPhoto } from '../../browser/offline.ts';
import { unkept } from '../../browser/unkept.ts';
import { VisionClient } from '../../browser/worker-client.ts';
import { photoMessage, READER_STOPPED, SAMPLE_FAILED } from '../../words/photo.ts';
import { refusalMessage } from '../../words/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { ReadResult } from '../../vision/messages.ts';
import { freeCanvases, need } from '../dom.ts';
import { siteBase } from '../href.ts';
import { DipTimer } from '../timer/dip-timer.ts';
import { cardPicture, lettersOf } from '../photo/card-picture.ts';
import { CameraPlace } from './camera-place.ts';
import { GettingReady, REST_MILLIS } from './getting-ready.ts';
import { listenForChosen, listenForFiles } from './files-in.ts';
import { ProgressList } from './progress.ts';
import { type IncomingPhoto, photoFrom, practicePhoto, type Shown } from './incoming-photo.ts';
import type { OnAnother } from './another-photo.ts';
import { otherScales } from './other-scales.ts';
import { refusal } from './refusal.ts';
import { ResultPlace } from './result-place.ts';
import type { SheetData } from './sheet.ts';
import { ScaleChoice } from './scale-choice.ts';
import { sheetParts } from './sheet-parts.ts';
import type { PhotoRows } from './photo-rows.ts';
import { keptSpans } from '../../browser/spans.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { whichCard } from './which-card.ts';

type ReadingSheet = typeof import('./sheet.ts').readingSheet;

class ReadDesk extends HTMLElement {
  readonly #client = new VisionClient();
  readonly #ready = new GettingReady(this.#client);
  #running: AbortController | null = null;
  /** The photo that was read last, or is being read. */
  #photo: IncomingPhoto | null = null;
  /** What was being read when the page was left. */
  #interrupted: IncomingPhoto | null = null;
  /** A practice photo that is being fetched: a photo chosen meanwhile is read instead. */
  #fetching: AbortController | null = null;
  /** Other scales are being tried on a refused photo. */
  #trying: AbortController | null = null;
  /** What the sheet shows. */
  #shown: Shown | undefined;
  /** Several photos that were chosen at once. */
  #rows: PhotoRows | null = null;
  #choice!: ScaleChoice;
  #camera!: CameraPlace;
  #targets: Spans = {};
  #ownTargets = false;
  #progress!: ProgressList;
  #result!: ResultPlace;

  connectedCallback(): void {
    const data = JSON.parse(need(this, 'script[data-desk]').textContent) as { scales: StripScale[]; targets: Spans };
    const own = keptSpans();
    this.#targets = own ?? data.targets;
    this.#ownTargets = own !== null;
    this.#progress = new ProgressList(need(this, '.progress'), () => this.#cancel());
    this.#result = new ResultPlace(need(this, '.result'), () => this.#progress.end());
    this.#choice = new ScaleChoice(this, data.scales, (scale) => {
      need<DipTimer>(this, 'dip-timer').times = scale;
    });
    whenIdle(() => {
      void this.#choice.withKept();
      setTimeout(() => this.#ready.atRest(this.#choice.scale), REST_MILLIS);
    });
    const take = (files: readonly File[]) => void this.#take(files.map(photoFrom));
    for (const input of this.querySelectorAll<HTMLInputElement>('input[type=file]')) {
      // While the visitor chooses or takes a photo.
      listenForChosen(input, take, () => this.#ready.expecting(this.#choice.scale));
    }
    dipClock.addEventListener('change', () => {
      if (dipClock.isRunning && !dipClock.isRead) this.#ready.expecting(this.#choice.scale);
    });
    this.#camera = new CameraPlace(this, this.#client, {
      scale: () => this.#choice.scale,
      onPhoto: (photo) => void this.#take([photo]),
    });
    listenForFiles(need(this, '.drop'), take);
    for (const button of this.querySelectorAll<HTMLButtonElement>('button[data-photo]')) {
      button.addEventListener('click', () => void this.#readSample(button));
    }
    window.addEventListener('pagehide', ({ persisted }) => this.#leave(persisted));
    window.addEventListener('pageshow', ({ persisted }) => persisted && this.#comeBack());
    void this.#showWaiting();
    void this.#takeShared();
    this.dataset['ready'] = '';
  }

  /** Another app's share menu hands photos over, and so could any page: what isn't from here is read when asked to. */
  async #takeShared(): Promise<void> {
    const handed = await takeSharedPhoto(siteBase());
    if (!handed) return;
    if (handed !== 'refused' && handed.isOurs) return this.#read(photoFrom(handed.photo));
    const { handedOver } = await import('./handed-over.ts');
    this.#result.replace(handedOver(handed, (photo) => void this.#read(photoFrom(photo))));
  }

  async #readSample(button: HTMLButtonElement): Promise<void> {
    this.#fetching?.abort();
    const { signal } = (this.#fetching = new AbortController());
    const photo = await practicePhoto(button, signal).catch(() => null);
    if (signal.aborted) return;
    if (photo) await this.#take([photo]);
    else this.#result.showRefusal(refusal([SAMPLE_FAILED], null, null));
  }

  /** Several photos become rows; one that comes while those aren't kept yet becomes another. */
  async #take(photos: readonly IncomingPhoto[]): Promise<void> {
    const [first] = photos;
    if (first && (first.joins || (photos.length === 1 && !this.#rows?.isHeld))) return this.#read(first);
    this.#stop();
    const [{ PhotoRows, rowsLook }, { readingSheet }] = await Promise.all([import('./photo-rows.ts'), sheetParts()]);
    await rowsLook();
    if (this.#rows?.isHeld) return this.#rows.add(photos);
    const rows = (this.#rows = new PhotoRows({
      client: this.#client,
      scaleOf: (photo) => this.#scaleFor(photo),
      targets: this.#targets,
      sheet: (data) => this.#sheetOf({ ...data, onAnother: null }, readingSheet),
    }));
    this.#result.show(rows.element);
    rows.add(photos);
  }

  #stop(): void {
    this.#running?.abort();
    this.#fetching?.abort();
    this.#trying?.abort();
    this.#camera.close();
  }

  async #scaleFor({ joins, scaleId }: IncomingPhoto): Promise<StripScale> {
    await this.#choice.withKept();
    return joins?.scale ?? (scaleId === undefined ? this.#choice.scale : this.#choice.byId(scaleId));
  }

  /** @param which of several cards, once the visitor has chosen */
  async #read(photo: IncomingPhoto, which: number | null = null): Promise<void> {
    this.#stop();
    this.#rows?.stop();
    const running = (this.#running = new AbortController());
    this.#photo = photo;
    this.#ready.reading(this.#choice.scale);
    this.#result.setAside();
    this.#progress.start();
    try {
      const [decoded, scale] = await Promise.all([
        photo.bitmap ? decodedAs(photo.bitmap) : decodePhoto(photo.blob),
        this.#scaleFor(photo),
      ]);
      if (running.signal.aborted && decoded.ok) decoded.picture.close();
      if (running.signal.aborted) return;
      if (!decoded.ok) {
        await sheetParts();
        return this.#result.showRefusal(refusal([photoMessage(decoded.failure)], null, null));
      }
      const { picture, width, height } = decoded;
      this.#progress.show(decoded, photo.blob);
      const result = await this.#client.read(
        picture,
        scale,
        (stage) => this.#progress.reach(stage),
        running.signal,
        which,
      );
      const { reading } = result;
      if (reading.outcome === 'refused' && reading.cards) {
        // The picture was handed to the worker and can't be used again; the blob can.
        const choose = (chosen: number) => void this.#read({ ...photo, bitmap: undefined }, chosen);
        const { photoCanvas } = await import('./photo-canvas.ts');
        const shown = await photoCanvas(photo.blob);
        if (running.signal.aborted) return;
        return this.#result.showRefusal(whichCard(shown, { width, height }, reading.cards, choose));
      }
      const { readingSheet } = await sheetParts();
      if (running.signal.aborted) return;
      await this.#showResult(result, scale, photo, readingSheet, running.signal);
    } catch (error) {
      if (running.signal.aborted) return;
      console.error(error);
      const picture = await this.#photoFigure(photo).catch(() => null);
      if (!running.signal.aborted) this.#result.showRefusal(refusal([READER_STOPPED], picture, null));
    } finally {
      if (this.#running === running) {
        this.#running = null;
        this.#progress.end();
      }
    }
  }

  /** A page that is left gives the engine's memory back; what was being read is read again when it comes back. */
  #leave(mayComeBack: boolean): void {
    if (!mayComeBack) freeCanvases(this);
    this.#interrupted = this.#running && this.#photo;
    this.#running?.abort();
    this.#client.close();
  }

  #comeBack(): void {
    const photo = this.#interrupted;
    this.#interrupted = null;
    // The picture may have been handed to the worker; the file can be decoded again.
    if (photo) void this.#read({ ...photo, bitmap: undefined });
  }

  #cancel(): void {
    this.#running?.abort();
    this.#running = null;
    this.#progress.end('Cancelled. Choose another photo when you like.');
    this.#result.comeBack();
    need<HTMLElement>(this, '#photo').focus();
  }

  async #showResult(
    { reading, flat, seen, millis }: ReadResult,
    scale: StripScale,
    photo: IncomingPhoto,
    readingSheet: ReadingSheet,
    signal: AbortSignal,
  ): Promise<void> {
    const { sinceDipSeconds, truth, fromCamera = false, joins } = photo;
    if (reading.outcome === 'refused') {
      const picture = flat ? cardPicture(flat, [], reading.places) : await this.#photoFigure(photo);
      if (signal.aborted) return;
      const letters = lettersOf(reading.places);
      const reasons = reading.reasons.map((code) => ({ ...refusalMessage(code), code, letter: letters.get(code) }));
      const again = fromCamera ? () => void this.#camera.open(joins) : null;
      const other = reading.reasons.includes('strip-mismatch') ? this.#tryOthers(photo, scale) : null;
      return this.#result.showRefusal(refusal(reasons, picture, again, other));
    }
    if (sinceDipSeconds !== null) dipClock.markRead();
    const data = joins
      ? (await import('./joined.ts')).joined(joins, reading)
      : { outcome: reading, scale, flat, seen, millis, time: new Date(), sinceDipSeconds, truth };
    this.#result.show(this.#sheet(data, fromCamera, readingSheet));
  }

  #sheet(data: Shown & Pick<SheetData, 'before'>, fromCamera: boolean, readingSheet: ReadingSheet): HTMLElement {
    const onDiscard = async () => {
      const { discarded } = await import('./waiting.ts');
      const notice = await discarded((waiting) => this.#result.show(this.#sheet(waiting, fromCamera, readingSheet)));
      this.#result.replace(notice);
      notice.querySelector('button')?.focus();
    };
    const onAnother: OnAnother = {
      files: (files) => void this.#readAlso(files, data),
      camera: fromCamera ? () => void this.#camera.open(data) : null,
    };
    this.#shown = data;
    return this.#sheetOf({ ...data, onDiscard, onAnother }, readingSheet);
  }

  #sheetOf(data: Omit<SheetData, 'planUrl' | 'targets' | 'ownTargets'>, readingSheet: ReadingSheet): HTMLElement {
    const [targets, ownTargets] = [this.#targets, this.#ownTargets];
    return readingSheet({ ...data, planUrl: this.dataset['planUrl']!, targets, ownTargets });
  }

  #tryOthers(photo: IncomingPhoto, tried: StripScale): HTMLElement {
    const { signal } = (this.#trying = new AbortController());
    const others = this.#choice.scales.filter(({ id }) => id !== tried.id);
    return otherScales(photo.blob, others, this.#client, signal, ({ id }) => {
      void this.#read({ ...photo, bitmap: undefined, joins: undefined, scaleId: id });
    });
  }

  /** Reads further photos of a strip one after the other, each joined to those before. */
  async #readAlso(files: readonly File[], first: Shown): Promise<void> {
    this.#shown = first;
    for (const file of files) await this.#read({ ...photoFrom(file), joins: this.#shown });
  }

  /** A reading that was left before it was kept comes back, unless another one is on its way already. */
  async #showWaiting(): Promise<void> {
    if (!unkept()) return;
    const [{ waitingReading }, { readingSheet }] = await Promise.all([import('./waiting.ts'), sheetParts()]);
    const waiting = await waitingReading();
    if (!waiting || this.#running || !this.#result.isEmpty) return;
    this.#result.replace(this.#sheet(waiting, false, readingSheet));
  }

  async #photoFigure({ blob }: IncomingPhoto): Promise<HTMLElement | null> {
    return (await import('./photo-canvas.ts')).photoFigure(blob);
  }
}

customElements.define('read-desk', ReadDesk);
