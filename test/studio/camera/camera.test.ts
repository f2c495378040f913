import { describe, expect, test } from 'vitest';
import { randomFrom } from '../random.ts';
import { spectrumOfLight } from '../scene/light.ts';
import type { LightSpec } from '../scene/types.ts';
import { D65 } from '../spectra/daylight.ts';
import { colourMatching, labOf } from '../spectra/observer.ts';
import { spectrumOf, WAVELENGTHS_NM } from '../spectra/wavelengths.ts';
import { developed, STRIPS } from '../strips/strips.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { linearToLab } from '../../../src/core/colour/lab.ts';
import { blurPlane, smearPlane } from './blur.ts';
import { balanced, profileFor, temperatureOf, times, whiteResponse } from './colour.ts';
import { FAMILY_NAMES, sensorOf, type Sensor } from './sensors.ts';
import { encodeSrgb, TONE_NAMES, toneCurve } from './tone.ts';

const LIGHTS: readonly LightSpec[] = [
  { kind: 'daylight', cctK: 5500 },
  { kind: 'leaves', cctK: 8000, share: 0.3 },
  { kind: 'planck', temperatureK: 2700 },
  { kind: 'led', tone: 'warm', shiftNm: 0 },
  { kind: 'tri-band', tone: 'cool' },
];

test.each(FAMILY_NAMES)('%s: a grey stays grey under any light that was balanced right', (family) => {
  const sensor = sensorOf(family, randomFrom(3));
  for (const spec of LIGHTS) {
    const light = spectrumOfLight(spec);
    const matrix = profileFor(sensor).matrixAt(temperatureOf(light));
    const grey = spectrumOf(() => 0.37);
    for (const value of times(matrix, balanced(grey, light, sensor, whiteResponse(light, sensor)))) {
      expect(value).toBeCloseTo(0.37, 9);
    }
  }
});

test('a camera that sees as the observer does shows every pad in its true colour', () => {
  const observer = [0, 1, 2].map((c) => spectrumOf((nm) => colourMatching(nm)[c]!)) as unknown as Sensor;
  const matrix = profileFor(observer).matrixAt(6504);
  for (const strip of STRIPS) {
    for (const pad of strip.pads) {
      for (const value of pad.values) {
        const pads = developed(pad, value);
        const seen = times(matrix, balanced(pads, D65, observer, whiteResponse(D65, observer)));
        // What is left: sRGB's rounded matrices and this observer's own white of D65.
        expect(ciede2000(linearToLab(seen), labOf(pads, D65))).toBeLessThan(0.1);
      }
    }
  }
});

test('real cameras err on pads by amounts like those published for phones', () => {
  // Mean CIEDE2000 of phones against charts in daylight, about 1 to 4 with their own matrix: common practice, no source.
  for (const family of FAMILY_NAMES) {
    const sensor = sensorOf(family, randomFrom(11));
    const matrix = profileFor(sensor).matrixAt(6504);
    const white = whiteResponse(D65, sensor);
    const errors = STRIPS.flatMap((strip) =>
      strip.pads.flatMap((pad) =>
        pad.values.map((value) => {
          const colour = developed(pad, value);
          return ciede2000(linearToLab(times(matrix, balanced(colour, D65, sensor, white))), labOf(colour, D65));
        }),
      ),
    );
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    expect(mean, family).toBeGreaterThan(0.5);
    expect(mean, family).toBeLessThan(4);
  }
});

// Peaks of the eight phones measured by Tominaga et al. 2021 and Burggraaff et al. 2019: 590-600, 520-540, 470-480 nm.
test.each(['alder', 'birch', 'cedar'] as const)('%s has its peaks where measured phones have theirs', (family) => {
  const peaks = sensorOf(family, randomFrom(8)).map(
    (channel) => WAVELENGTHS_NM[channel.indexOf(Math.max(...channel))]!,
  );
  expect(Math.abs(peaks[0]! - 595)).toBeLessThanOrEqual(10);
  expect(Math.abs(peaks[1]! - 532)).toBeLessThanOrEqual(18);
  expect(Math.abs(peaks[2]! - 473)).toBeLessThanOrEqual(12);
});

describe('tone', () => {
  // IEC 61966-2-1: linear 0.214041 is encoded 0.5, 0.0031308 is 0.04045.
  test('the plain curve is the standard’s', () => {
    expect(encodeSrgb(0.214041)).toBeCloseTo(0.5, 5);
    expect(encodeSrgb(0.0031308)).toBeCloseTo(0.04045, 5);
  });

  test.each(TONE_NAMES)('%s rises from black to white', (name) => {
    const curve = toneCurve(name);
    const levels = Array.from({ length: 257 }, (_, i) => curve(i / 256));
    expect(levels[0]).toBeCloseTo(0, 9);
    expect(levels[256]).toBeCloseTo(1, 9);
    levels.slice(1).forEach((level, i) => expect(level).toBeGreaterThan(levels[i]!));
  });
});

describe('blur', () => {
  const dot = () => {
    const plane = new Float32Array(41 * 31);
    plane[15 * 41 + 20] = 1;
    return plane;
  };
  const moments = (plane: Float32Array) => {
    let [sum, xx, yy] = [0, 0, 0];
    plane.forEach((value, i) => {
      sum += value;
      xx += value * ((i % 41) - 20) ** 2;
      yy += value * (Math.floor(i / 41) - 15) ** 2;
    });
    return { sum, sigmaX: Math.sqrt(xx / sum), sigmaY: Math.sqrt(yy / sum) };
  };

  test('spreads a point by its standard deviation and keeps its light', () => {
    const plane = dot();
    blurPlane(plane, 41, 31, 1.8);
    const { sum, sigmaX, sigmaY } = moments(plane);
    expect(sum).toBeCloseTo(1, 5);
    expect(sigmaX).toBeCloseTo(1.8, 1);
    expect(sigmaY).toBeCloseTo(1.8, 1);
  });

  test('motion spreads along its direction only', () => {
    const { sum, sigmaX, sigmaY } = moments(smearPlane(dot(), 41, 31, { lengthPx: 8, turnDegrees: 0 }));
    expect(sum).toBeCloseTo(1, 5);
    // A line of length 8 has a standard deviation of 8 / sqrt(12).
    expect(Math.abs(sigmaX - 8 / Math.sqrt(12))).toBeLessThan(0.4);
    expect(sigmaY).toBe(0);
  });
});
