/** What the visitor has chosen for the whole site. */
import { EYES, type Eyes, type Theme, THEMES, UNIT_SYSTEMS } from '../core/settings.ts';
import type { UnitSystem } from '../core/water/units.ts';
import { remember, remembered } from './remembered.ts';

function chosen<T extends string>(key: string, allowed: readonly T[], otherwise: T): T {
  const kept = remembered(key);
  return allowed.find((each) => each === kept) ?? otherwise;
}

export const settings = {
  units: (): UnitSystem => chosen('units', UNIT_SYSTEMS, 'metric'),
  setUnits: (units: UnitSystem): void => remember('units', units),
  eyes: (): Eyes => chosen('eyes', EYES, 'full'),
  setEyes: (eyes: Eyes): void => remember('eyes', eyes),
  sound: (): boolean => chosen('sound', ['on', 'off'], 'on') === 'on',
  setSound: (on: boolean): void => remember('sound', on ? 'on' : 'off'),
  theme: (): Theme => chosen('theme', THEMES, 'auto'),
  setTheme: (theme: Theme): void => remember('theme', theme),
};
