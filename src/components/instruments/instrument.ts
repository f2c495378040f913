/** What an instrument is: a few controls, and a pure function from their settings to a picture and an answer in words. */
import { numberText } from '../../words/numbers.ts';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import type { SvgNode } from '../svg.ts';

export type Settings = Readonly<Record<string, number>>;

export interface Control {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  /** The same in US units: how many of them one `unit` is. */
  readonly us?: { readonly unit: string; readonly each: number };
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly start: number;
}

export interface Shown {
  readonly picture: SvgNode;
  /** Everything that the picture says, in a sentence or two. */
  readonly answer: string;
}

export interface Instrument {
  readonly controls: readonly Control[];
  show(settings: Settings): Shown;
  /** Which control takes which value of the visitor's own reading. */
  readonly mine?: Partial<Record<QuantityId, string>>;
  /**
   * What a finger on the picture sets; fractions of its width and height.
   * `axes` says which way it drags, so that the page can still be scrolled the other way.
   */
  readonly drag?: { readonly axes: 'x' | 'xy'; to(x: number, y: number, settings: Settings): Settings };
}

export function startSettings(controls: readonly Control[]): Settings {
  return Object.fromEntries(controls.map(({ name, start }) => [name, start]));
}

/** The setting as the control's step can show it. */
export function formatSetting(value: number, { step, unit, us }: Pick<Control, 'step' | 'unit' | 'us'>): string {
  const digits = step >= 1 ? 0 : Math.ceil(-Math.log10(step) - 1e-9);
  const number = numberText(value, { decimals: digits });
  const both = us ? ` (${numberText(value * us.each, { figures: 2 })} ${us.unit})` : '';
  return unit === '' ? number : `${number} ${unit}${both}`;
}

/** Held to what the control can be set to. */
export function onControl(value: number, { min, max, step }: Pick<Control, 'min' | 'max' | 'step'>): number {
  const steps = Math.round((value - min) / step);
  return Math.min(max, Math.max(min, Number((min + steps * step).toPrecision(12))));
}
