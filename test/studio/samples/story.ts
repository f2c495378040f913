/** What a sample photo is, and how its scene comes from its story. */
import { randomScene, type Difficulty } from '../random-scene.ts';
import type { Camera, Illumination, LaidStrip, PrintedCard, Scene, Table, View } from '../scene/types.ts';
import type { StudioStrip } from '../strips/strips.ts';

export interface Sample {
  readonly file: string;
  /** For a gallery. */
  readonly caption: string;
  /** The light in words. */
  readonly light: string;
  readonly scene: Scene;
  /** EXIF orientation the phone would write; the scene itself is upright. */
  readonly orientation?: 6 | 8;
  /** Why it must be refused. */
  readonly refused?: string;
}

export interface Story {
  readonly size: readonly [widthPx: number, heightPx: number];
  readonly difficulty?: Difficulty;
  readonly values: LaidStrip['values'];
  readonly light: Partial<Illumination>;
  readonly view: Partial<View>;
  readonly table: Partial<Table>;
  readonly camera: Partial<Camera>;
  readonly strip?: Partial<LaidStrip>;
  readonly card?: Partial<PrintedCard>;
}

/** A hand at rest and a sensor in good light: what a phone's own noise reduction leaves. */
const STEADY: Partial<Camera> = { motion: { lengthPx: 0, turnDegrees: 0 }, shotNoise: 0.009, readNoise: 0.0012 };

const EVEN: Pick<Illumination, 'second' | 'shadows'> = { second: null, shadows: [] };

export function sceneOf(seed: number, strip: StudioStrip, story: Story): Scene {
  const [widthPx, heightPx] = story.size;
  const base = randomScene(seed, story.difficulty ?? 'everyday', strip, { widthPx, heightPx });
  return {
    ...base,
    light: { ...base.light, ...EVEN, ...story.light },
    view: { ...base.view, ...story.view },
    table: { ...base.table, ...story.table },
    camera: { ...base.camera, ...STEADY, ...story.camera },
    card: { ...base.card!, variant: 'colour', ...story.card },
    strip: { ...base.strip!, ...story.strip, values: story.values },
  };
}

export const TERRACE_WOOD = { kind: 'wood', colour: [0.6, 0.44, 0.3] } as const;
export const GREY_DECK = { kind: 'deck', colour: [0.55, 0.5, 0.44] } as const;
