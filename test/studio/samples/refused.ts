import type { Scene } from '../scene/types.ts';
import { PRACTICE_FOUR } from '../strips/strips.ts';
import { type Sample, sceneOf, type Story, TERRACE_WOOD } from './story.ts';

/** Photos that can't be read, each with the code that should say so. */
export function refused(): Sample[] {
  const story: Story = {
    size: [1632, 1224],
    values: { 'free-chlorine': 2.1, ph: 7.4, 'total-alkalinity': 95, 'total-hardness': 220 },
    light: { main: { kind: 'leaves', cctK: 7600, share: 0.12 } },
    view: { cardFill: 0.7, tiltDegrees: 10, rollDegrees: 4, offset: [0, 0] },
    table: TERRACE_WOOD,
    camera: { family: 'birch', tone: 'gentle', jpegQuality: 76 },
  };
  const base = sceneOf(301, PRACTICE_FOUR, story);
  const light = 'open shade, 7600 K';
  const scenes: readonly (readonly [file: string, code: string, caption: string, change: Partial<Scene>])[] = [
    ['no-card.jpg', 'no-card', 'The table without a card', { card: null, strip: null }],
    [
      'card-cut-off.jpg',
      'card-cut-off',
      'One end of the card lies outside the picture',
      { view: { ...base.view, cardFill: 0.8, offset: [0.24, 0.05] } },
    ],
    ['no-strip.jpg', 'no-strip', 'The card with an empty slot', { strip: null }],
    [
      'blurred.jpg',
      'blurred',
      'Out of focus and shaken',
      { camera: { ...base.camera, blurPx: 9, motion: { lengthPx: 24, turnDegrees: 30 }, sharpening: 0 } },
    ],
    [
      'too-dark.jpg',
      'too-dark',
      'At night without a lamp',
      { camera: { ...base.camera, exposure: 0.022, shotNoise: 0.015, readNoise: 0.003, tone: 'plain' } },
    ],
    [
      'blown-out.jpg',
      'blown-out',
      'In full sun with the exposure set for the shade',
      { light: { ...base.light, main: { kind: 'daylight', cctK: 5400 } }, camera: { ...base.camera, exposure: 2.3 } },
    ],
  ];
  return scenes.map(([file, code, caption, change], i) => ({
    file: `refused/${file}`,
    caption,
    light,
    refused: code,
    scene: { ...base, seed: 301 + i, ...change },
  }));
}
