// `npm run --silent read -- [--scale FILE_OR_ID] [--card N] [--seconds-since-dip N] [--together] PHOTO...`: one JSON object a
// line.
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { unitOf } from '../core/measurement/quantities.ts';
import { photoMessage } from '../words/photo.ts';
import { type ReasonMessage, refusalMessage, warningMessage } from '../words/reading.ts';
import type { ReadOutcome, Reading, RefusalCode } from '../core/reading/reading.ts';
import { readTogether } from '../core/reading/several.ts';
import { withTiming } from '../core/reading/timing.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { readPhoto } from '../vision/read.ts';
import { openPhotoAt } from './decode.ts';
import { EXIT, print } from './output.ts';
import { loadScale, practiceScaleIds } from './scales.ts';

const USAGE = `Usage: npm run --silent read -- [--scale FILE_OR_ID] [--card N] [--seconds-since-dip N] [--together] PHOTO...
--card chooses among several cards in a photo, 1 from the left or the top.
--seconds-since-dip says how long after the dip the photos were taken.
--together says that all photos show the same strip: a last line has what they tell together.
Practice scales: ${practiceScaleIds().join(', ')}
Ends with 0 when every photo was read, 1 when some were refused or missing, 2 when it was asked wrongly.`;

const { scale, which, secondsSinceDip, isTogether, photos } = await readArguments();
const readings: ReadOutcome[] = [];
let isHeard = true;
for (const [i, photo] of photos.entries()) {
  const answer = await readOne(photo);
  if (answer.outcome !== 'read') process.exitCode = EXIT.partly;
  if (await print(JSON.stringify(answer))) continue;
  // The program that reads the answers has ended: the remaining photos are left out.
  if (i < photos.length - 1) process.exitCode = EXIT.partly;
  isHeard = false;
  break;
}
if (isTogether && isHeard && readings.length > 0) {
  await print(JSON.stringify({ together: readings.length, ...told(readTogether(readings, scale)) }));
}

interface Arguments {
  readonly scale: StripScale;
  /** Which of several cards, from 0; null where nobody said. */
  readonly which: number | null;
  /** Null where nobody said. */
  readonly secondsSinceDip: number | null;
  /** All photos show the same strip. */
  readonly isTogether: boolean;
  readonly photos: readonly string[];
}

async function readArguments(): Promise<Arguments> {
  try {
    const text = { type: 'string' } as const;
    const options = { scale: text, card: text, 'seconds-since-dip': text, together: { type: 'boolean' } } as const;
    const { values, positionals } = parseArgs({ allowPositionals: true, options });
    if (positionals.length === 0) throw new Error('name at least one photo');
    return {
      scale: await loadScale(values.scale ?? practiceScaleIds()[0]!),
      which: values.card === undefined ? null : cardNumber(values.card) - 1,
      secondsSinceDip: parseSeconds(values['seconds-since-dip']),
      isTogether: values.together ?? false,
      photos: positionals,
    };
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(EXIT.wrongUse);
  }
}

function cardNumber(text: string): number {
  if (/^[1-9]\d?$/.test(text)) return Number(text);
  throw new Error(`--card takes the number of a card in the photo, 1 or more, not '${text}'`);
}

function parseSeconds(text: string | undefined): number | null {
  if (text === undefined) return null;
  const seconds = Number(text);
  if (text.trim() !== '' && seconds >= 0 && seconds <= 86_400) return seconds;
  throw new Error('--seconds-since-dip takes the seconds from the end of the dip to the photo, 0 to 86400');
}

async function readOne(photo: string) {
  const started = performance.now();
  const opened = await openPhotoAt(photo);
  const decode = performance.now() - started;
  if (!opened.ok) {
    const { failure } = opened;
    const refused = line(photo, { outcome: 'refused', reasons: [], places: [] }, { decode, find: 0, read: 0 });
    return { ...refused, reasons: [described(failure, photoMessage(failure))] };
  }
  const { reading, millis } = readPhoto(opened.pixels, scale, () => undefined, which);
  const timed = reading.outcome === 'read' ? withTiming(reading, scale, secondsSinceDip) : reading;
  if (timed.outcome === 'read') readings.push(timed);
  return line(photo, timed, { decode, ...millis });
}

function line(photo: string, reading: Reading, millis: { decode: number; find: number; read: number }) {
  const rounded = {
    decode: round(millis.decode, 1),
    find: round(millis.find, 1),
    read: round(millis.read, 1),
  };
  const shared = { photo: basename(photo), path: photo, outcome: reading.outcome };
  if (reading.outcome === 'refused') {
    const reasons = reading.reasons.map(reasonOf);
    const cards = reading.cards?.map((corners) => corners.map(([x, y]) => [round(x, 4), round(y, 4)]));
    return {
      ...shared,
      reasons,
      ...(cards && { cards }),
      warnings: [],
      places: reading.places,
      correction: null,
      pads: [],
      millis: rounded,
    };
  }
  return { ...shared, reasons: [], ...told(reading), millis: rounded };
}

function told({ pads: seen, correction, places, warnings: codes }: ReadOutcome) {
  const pads = seen.map((pad) => ({
    parameter: pad.quantity,
    unit: unitOf(pad.quantity),
    value: round(pad.value, 3),
    low: round(pad.low, 3),
    high: round(pad.high, 3),
    offScale: pad.offScale,
    openBelow: pad.openBelow,
    openAbove: pad.openAbove,
    deltaE: round(pad.deltaE, 2),
  }));
  const warnings = codes.map((code) => described(code, warningMessage(code)));
  return { warnings, places, correction, pads };
}

function reasonOf(code: RefusalCode) {
  return described(code, refusalMessage(code));
}

function described(code: string, { wrong, remedy }: ReasonMessage) {
  return { code, message: `${wrong} ${remedy}` };
}

function round<T extends number | null>(value: T, digits: number): T {
  return (value === null ? null : Number(value.toFixed(digits))) as T;
}
