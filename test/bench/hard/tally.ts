/** What a set of readings comes to. */
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import type { PadReading, Reading } from '../../../src/core/reading/reading.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { stepOf } from '../../pictures/read-samples.ts';

export type Values = Readonly<Partial<Record<PadQuantity, number>>>;

export class Tally {
  photos = 0;
  read = 0;
  pads = 0;
  unmatched = 0;
  held = 0;
  readonly steps: number[] = [];
  /** Photos with a pad that is wrong by over a block while its interval leaves the truth out. */
  readonly wrong: string[] = [];
  /** How often each code refused. */
  readonly codes = new Map<string, string[]>();

  add(name: string, reading: Reading, scale: StripScale, values: Values): void {
    this.photos++;
    if (reading.outcome !== 'read') {
      const code = reading.reasons.join(' ');
      this.codes.set(code, [...(this.codes.get(code) ?? []), name]);
      return;
    }
    this.read++;
    const wrong = reading.pads.filter((pad) => this.#addPad(pad, scale, values[pad.quantity]));
    if (wrong.length > 0) this.wrong.push(name);
  }

  /** @returns whether it is wrong and confident */
  #addPad(pad: PadReading, scale: StripScale, truth: number | undefined): boolean {
    this.pads++;
    if (pad.value === null) {
      this.unmatched++;
      return false;
    }
    // A value of something that the strip in the photo doesn't measure can only be wrong.
    if (truth === undefined) return true;
    const blocks = scale.pads.find(({ parameter }) => parameter === pad.quantity)!.blocks.map(({ value }) => value);
    const step = Math.abs(stepOf(blocks, pad.value) - stepOf(blocks, truth));
    this.steps.push(step);
    const inMain = (pad.openBelow || truth >= pad.low!) && (pad.openAbove || truth <= pad.high!);
    const inOther = pad.alternative !== null && truth >= pad.alternative.low && truth <= pad.alternative.high;
    if (inMain || inOther) this.held++;
    return !inMain && !inOther && step > 1;
  }

  get meanSteps(): number {
    return this.steps.reduce((sum, step) => sum + step, 0) / Math.max(1, this.steps.length);
  }

  percentile(share: number): number {
    return this.steps.toSorted((one, other) => one - other)[Math.floor(share * this.steps.length)] ?? Number.NaN;
  }
}
