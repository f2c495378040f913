/** Cards as poor printers make them: either the reading holds, or it is refused with the reason. All simulated. */
import { describe, expect, it } from 'vitest';
import { NEUTRALS } from '../../../src/core/card/geometry.ts';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { Reading } from '../../../src/core/reading/reading.ts';
import { loadScale } from '../../../src/cli/scales.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, type Owner, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const scale = await loadScale(PRACTICE_FOUR.id);
const TRUTH = [95, 1.8, 180, 7.4];
const ROUNDS = 8;
/** For shares of intervals: nine in ten of 96 pads. */
const MANY = 24;

type Print = (owner: Owner, round: number) => Owner;

function readings(print: Print, rounds = ROUNDS): Reading[] {
  return Array.from({ length: rounds }, (_, round) => {
    const random = randomFrom(88_003 + 977 * round);
    const owner = print(ownerOf(PRACTICE_FOUR, random.fork('owner')), round);
    const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
    const shot = takeShot(owner, phone, everydayLight(random.fork('light')), random.fork('shot'));
    return readStrip(shot.card, shot.strip(TRUTH), scale, 0);
  });
}

const mixed =
  (chroma: number): Print =>
  (owner, round) => ({ ...owner, cast: { chroma, hueDegrees: (360 * round) / ROUNDS } });
const gain =
  (dotGain: number): Print =>
  (owner) => ({ ...owner, printer: { ...owner.printer, dotGain, n: 1 } });
const paper =
  (level: number, yellowness: number, brightener: number): Print =>
  (owner) => ({ ...owner, paper: { level, yellowness, brightener } });

const PRINTS: readonly (readonly [string, Print])[] = [
  ['black only', (owner) => ({ ...owner, variant: 'black' })],
  ...[1, 2, 3, 4, 5, 6].map((chroma): [string, Print] => [`mixed greys, chroma ${chroma}`, mixed(chroma)]),
  ...[0.05, 0.1, 0.2, 0.3].map((dotGain): [string, Print] => [`dot gain ${100 * dotGain} %`, gain(dotGain)]),
  ['cream paper', paper(0.84, 0.14, 0)],
  ['recycled paper', paper(0.7, 0.08, 0.02)],
  ['bright paper', paper(0.9, 0, 0.25)],
];

describe.each(PRINTS)('%s', (_, print) => {
  const seen = readings(print, MANY);

  it('holds the truth in nine intervals of ten, or is refused with the reason', () => {
    let [held, pads] = [0, 0];
    for (const reading of seen) {
      if (reading.outcome === 'refused') {
        expect(reading.reasons).toEqual(['greys-mixed']);
        continue;
      }
      reading.pads.forEach((pad, i) => {
        pads++;
        const main = (pad.openBelow || TRUTH[i]! >= pad.low!) && (pad.openAbove || TRUTH[i]! <= pad.high!);
        const other = pad.alternative !== null && TRUTH[i]! >= pad.alternative.low && TRUTH[i]! <= pad.alternative.high;
        if (main || other) held++;
      });
    }
    expect(held).toBeGreaterThanOrEqual(0.9 * pads);
  });
});

describe('greys that are not grey', () => {
  const named = (reading: Reading) => new Set(reading.places.map(({ outline }) => outline[0]!.join()));

  it('are named by their places where the printer mixed them, and never bare paper or solid black', () => {
    const warned = readings(mixed(6)).filter(
      (reading) => reading.outcome === 'read' && reading.warnings.includes('greys-not-neutral'),
    );
    expect(warned.length).toBeGreaterThanOrEqual(ROUNDS - 1);
    for (const reading of warned) {
      const corners = named(reading);
      const isNamed = ({ xMm, yMm }: { xMm: number; yMm: number }) => corners.has([xMm, yMm].join());
      const middle = NEUTRALS.filter(({ ink }) => ink > 0.4 && ink < 0.6);
      expect(middle.filter(isNamed).length).toBeGreaterThanOrEqual(middle.length / 2);
      expect(NEUTRALS.filter(({ ink }) => ink === 0).some(isNamed)).toBe(false);
    }
  });

  it('are not suspected in black ink alone', () => {
    const suspected = readings((owner) => owner).filter(
      (reading) => reading.outcome === 'refused' || reading.warnings.includes('greys-not-neutral'),
    );
    expect(suspected).toHaveLength(0);
  });

  it('refuse the photo when they are too far off, with their places', () => {
    for (const reading of readings(mixed(20))) {
      expect(reading.outcome).toBe('refused');
      expect(reading.outcome === 'refused' && reading.reasons).toEqual(['greys-mixed']);
      expect(reading.places.length).toBeGreaterThan(4);
    }
  });
});
