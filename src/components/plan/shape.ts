/** The volume worked out from the pool's measures, as they are typed. */
import type { Outline } from '../../core/pool/outline.ts';
import {
  type Floor,
  type PoolShape,
  type ShapeIssue,
  shapeIssues,
  surfaceM2,
  volumeLitres,
} from '../../core/pool/volume.ts';
import { volumeText } from '../../words/units.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { need } from '../dom.ts';
import { valueOf } from './form.ts';

const ISSUES: Record<ShapeIssue, string> = {
  'size-not-positive': 'Every measure must be more than 0.',
  'too-large': 'One of the measures is too large for a pool.',
  'ends-wider-than-long': 'The length over all must be at least the width.',
  'above-floor': 'The water would lie below the floor: check the depth and the way down to the water.',
  'shares-over-one': 'The parts of the floor are longer than the pool.',
};

type Select = HTMLSelectElement;

export class ShapeVolume {
  readonly #root: HTMLElement;
  #units: UnitSystem = 'metric';

  /** @param onUse given litres and square metres of surface */
  constructor(root: HTMLElement, onUse: (litres: number, surface: number) => void) {
    this.#root = root;
    need(root, '.use-volume').addEventListener('click', () => {
      const shape = this.#shape();
      if (shape && shapeIssues(shape).length === 0) onUse(volumeLitres(shape), surfaceM2(shape));
    });
    root.addEventListener('input', () => this.show(this.#units));
  }

  show(units: UnitSystem): void {
    this.#units = units;
    this.#hideOthers();
    const shape = this.#shape();
    const issues = shape ? shapeIssues(shape) : [];
    need<HTMLElement>(this.#root, '.use-volume').hidden = !shape || issues.length > 0;
    need(this.#root, '.shape-result').textContent = !shape
      ? ''
      : issues.length > 0
        ? issues.map((issue) => ISSUES[issue]).join(' ')
        : `That is about ${volumeText(volumeLitres(shape), units, 3)}.`;
  }

  #hideOthers(): void {
    const [shape, floor] = [this.#choice('#shape'), this.#choice('#floor')];
    for (const part of this.#root.querySelectorAll<HTMLElement | SVGElement>('[data-shapes], [data-floors]')) {
      const { shapes, floors } = part.dataset;
      const isOther = !(shapes ?? shape).split(' ').includes(shape) || !(floors ?? floor).split(' ').includes(floor);
      part.toggleAttribute('hidden', isOther);
    }
  }

  /** Null while a measure is missing. */
  #shape(): PoolShape | null {
    const sides = this.#measures('[data-shapes]');
    const depths = this.#measures('[data-floors]');
    const { belowRimM } = this.#measures('.measure:not([data-shapes], [data-floors])');
    if ([...Object.values(sides), ...Object.values(depths)].includes(undefined)) return null;
    return {
      outline: { shape: this.#choice('#shape'), ...sides } as unknown as Outline,
      floor: { floor: this.#choice('#floor'), ...inShares(depths) } as unknown as Floor,
      belowRimM: belowRimM ?? 0,
    };
  }

  /** The visible measures of one kind, metric. */
  #measures(selector: string): Record<string, number | undefined> {
    const inputs = [...this.#root.querySelectorAll<HTMLElement>(`${selector}:not([hidden]) [data-dim]`)];
    const entries = inputs.map((input) => {
      const value = valueOf(input as HTMLInputElement, this.#units);
      return [input.dataset['dim']!, typeof value === 'number' ? value : undefined] as const;
    });
    return Object.fromEntries(entries);
  }

  #choice(selector: string): string {
    return need<Select>(this.#root, selector).value;
  }
}

/** What is typed in per cent of the length, as the core's shares. */
function inShares(depths: Record<string, number | undefined>): Record<string, number | undefined> {
  const { shelfPercent, slopePercent, ...rest } = depths;
  if (shelfPercent === undefined || slopePercent === undefined) return rest;
  return { ...rest, shelfShare: shelfPercent / 100, slopeShare: slopePercent / 100 };
}
