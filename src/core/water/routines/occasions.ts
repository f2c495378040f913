/** After rain, after a party, before leaving. */
import type { Plan } from '../plan/types.ts';
import { course, item, type Course, type Occasion } from './item.ts';

/** mm of rain that thins salt and stabilizer by a test's step in a pool of usual depth. Common practice, no source. */
const MUCH_RAIN_MM = 50;

export function afterRain({ input: { pool }, now }: Plan, { rainMm }: Occasion): Course {
  const { volumeLitres, surfaceM2 } = pool;
  const litres = surfaceM2 === undefined ? undefined : rainMm * surfaceM2;
  // What rains in mixes and runs over: the pool keeps its level.
  const share = litres === undefined ? undefined : litres / (volumeLitres + litres);
  const left = (value: number) => (share === undefined ? {} : { from: value, to: value * (1 - share) });
  const isSalt = pool.chlorination === 'chlorinator';
  return course(
    [
      item('wait-for-thunder'),
      item('clear-debris'),
      item('lower-to-skimmer', litres === undefined ? {} : { litres }),
      item('filter-on', { hours: 24 }),
      isSalt && rainMm > 0 && item('rain-thins-salt', left(now.water.salt)),
      pool.stabilised && rainMm >= MUCH_RAIN_MM && item('rain-thins-stabilizer', left(now.water.cyanuricAcid)),
      item('test-then-plan'),
      item('chlorine-before-night'),
    ],
    ['discharge-permission', 'discharge-downhill', isSalt && 'discharge-salt', 'see-the-bottom'],
  );
}

/** g of chlorine that a bather's sweat, skin and more use up. Common practice, no source: between 2 and 10. */
const CHLORINE_PER_BATHER = 4;

export function afterParty({ input: { pool }, targets, upkeep }: Plan, { bathers }: Occasion): Course {
  const fall = (CHLORINE_PER_BATHER * 1000 * bathers) / pool.volumeLitres;
  const cell = upkeep?.kind === 'chlorinator' ? pool.cell : undefined;
  return course(
    [
      item('everybody-out'),
      item('clear-debris'),
      item('party-used', { bathers, fall }),
      item('test-tonight'),
      item('chlorine-to', { to: targets['free-chlorine'].high }),
      cell !== undefined && item('cell-overnight', { hours: (bathers * CHLORINE_PER_BATHER) / cell.gramsPerHour }),
      item('filter-on', { hours: 12 }),
      item('test-combined'),
    ],
    ['nobody-in-the-water', 'never-mix', 'back-in-range-first', 'see-the-bottom'],
  );
}

export function beforeLeaving({ input: { pool }, targets, upkeep, now }: Plan, { days }: Occasion): Course {
  const { high } = targets['free-chlorine'];
  const use = upkeep?.use.value;
  const isFed = pool.chlorination === 'chlorinator' && upkeep?.kind === 'chlorinator';
  const lasts = use && use > 0 ? Math.max(now.water.freeChlorine, high) / use : undefined;
  return course(
    [
      item('clear-debris'),
      item('clean-filter-first'),
      item('test-then-plan'),
      item('chlorine-to', { to: high }),
      isFed &&
        upkeep.timer.percent <= 100 &&
        item('cell-set', { percent: upkeep.timer.percent, hours: upkeep.timer.hours }),
      !isFed && lasts !== undefined && item('somebody-doses', { days, lasts }),
      pool.chlorination === 'trichlor' && item('tablets-in-feeder'),
      item('ph-low-end', { to: targets.ph.low }),
      pool.exposure === 'sun' && pool.cover !== undefined && pool.cover !== 'none' && item('cover-on'),
      item('level-high'),
      pool.heater !== 'none' && item('heater-down'),
      item('somebody-looks', { days }),
      item('lock-up'),
      item('test-on-return'),
    ],
    ['children-away', 'see-the-bottom'],
  );
}
