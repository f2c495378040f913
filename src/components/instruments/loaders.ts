/** Where each instrument's working lies. Loaded when one is first touched, so that a page is light until then. */
import type { Instrument } from './instrument.ts';

export const LOADERS: Readonly<Record<string, () => Promise<Instrument>>> = {
  'active-chlorine': async () => (await import('./active-chlorine.ts')).activeChlorineInstrument,
  'alkalinity-buffer': async () => (await import('./alkalinity-buffer.ts')).alkalinityBuffer,
  'chlorinator-hours': async () => (await import('./chlorinator-hours.ts')).chlorinatorHoursInstrument,
  'interval-along-scale': async () => (await import('./interval-along-scale.ts')).intervalAlongScale,
  'saturation-map': async () => (await import('./saturation-map.ts')).saturationMap,
  'lamp-and-patch': async () => (await import('./lamp-and-patch.ts')).lampAndPatch,
  'strips-add-up': async () => (await import('./strips-add-up.ts')).stripsAddUp,
  'salt-season': async () => (await import('./salt-season.ts')).saltSeason,
};
