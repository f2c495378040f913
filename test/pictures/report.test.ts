import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { type PadReport, readSamples, type SampleReport } from './read-samples.ts';

let report: SampleReport;
let pads: (PadReport & { file: string })[];

beforeAll(async () => {
  report = await readSamples();
  pads = report.photos.flatMap((photo) => photo.pads.map((pad) => ({ ...pad, file: photo.file })));
});

// The truth is what the simulator was told, before any light, camera or reader.
describe('the sample photos', () => {
  it('are at least twelve and are all read', () => {
    expect(report.photos.length).toBeGreaterThanOrEqual(12);
    expect(report.photos.filter((photo) => photo.outcome !== 'read')).toEqual([]);
  });

  it('give pH within 0.25 wherever the truth lies inside the scale', () => {
    const off = pads.filter(({ parameter, error }) => parameter === 'ph' && error !== null && Math.abs(error) > 0.25);
    expect(off).toEqual([]);
  });

  it('give every other pad within one block step', () => {
    expect(pads.filter(({ steps }) => steps !== null && Math.abs(steps) > 1)).toEqual([]);
  });

  it('hold the truth in at least nine of ten intervals', () => {
    const inside = pads.filter(({ truthOffScale }) => truthOffScale === null);
    expect(inside.length).toBeGreaterThan(50);
    expect(inside.filter(({ holds }) => holds).length / inside.length).toBeGreaterThanOrEqual(0.9);
  });

  it('are never wrong and confident: beyond the scale it is said, or the interval is left open', () => {
    expect(pads.filter(({ holds, steps }) => !holds && (steps === null || Math.abs(steps) > 1))).toEqual([]);
  });

  it('are refused for the reason they were made for', () => {
    expect(report.refused.length).toBeGreaterThanOrEqual(6);
    for (const { file, expected, got } of report.refused) expect([file, ...got]).toEqual([file, expected]);
  });

  it('read as the committed report says; after a wanted change run `npm run report` and look at the difference', async () => {
    const committed = JSON.parse(await readFile(new URL('report.json', import.meta.url), 'utf8')) as SampleReport;
    expect(report.photos.map(({ file, outcome, warnings }) => ({ file, outcome, warnings }))).toEqual(
      committed.photos.map(({ file, outcome, warnings }) => ({ file, outcome, warnings })),
    );
    const before = committed.photos.flatMap((photo) => photo.pads);
    pads.forEach((pad, i) => {
      // Decoders differ by a level here and there between platforms.
      const step = Math.max(0.02, 0.02 * Math.abs(before[i]!.value ?? 0));
      expect(Math.abs((pad.value ?? 0) - (before[i]!.value ?? 0))).toBeLessThanOrEqual(step);
    });
  });
});
