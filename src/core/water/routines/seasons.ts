/** Opening and closing, for this pool's equipment and winter. */
import { COLD_FOR_CELLS } from '../plan/steps/chlorinator-run.ts';
import type { Plan } from '../plan/types.ts';
import { course, item, type Course } from './item.ts';

/** °C below which algae are slow enough to close. Common practice, no source. */
const COOL_TO_CLOSE_C = 12;

export function opening({ input: { pool }, targets, now }: Plan): Course {
  const hasCell = pool.chlorination === 'chlorinator';
  return course(
    [
      item('look-around'),
      item('cover-off'),
      pool.winter !== 'mild' && item('plugs-and-drains'),
      item('fill-to-skimmer'),
      item('pump-on-clear'),
      item('brush-and-clean-filter'),
      item('mix-a-day'),
      item('test-everything', pool.stabilised ? { stabilizer: 1 } : {}),
      item('follow-plan'),
      hasCell && item('cell-last', { from: COLD_FOR_CELLS, salt: targets.salt.low }),
      pool.heater !== 'none' && item('heater-last', pool.heater === 'collector' ? { collector: 1 } : {}),
      item('hold-overnight'),
      item('swim-when', now.water.temperatureC < COLD_FOR_CELLS ? { cold: 1 } : {}),
    ],
    ['drown-cover', 'drain-covers', 'see-the-bottom', 'cold-water', 'electricity'],
  );
}

export function closing({ input: { pool }, targets }: Plan): Course {
  const hasCell = pool.chlorination === 'chlorinator';
  const isMild = pool.winter === 'mild';
  return course(
    [
      item('wait-until-cool', { below: COOL_TO_CLOSE_C }),
      item('clear-debris'),
      item('brush-and-clean-filter'),
      item('ph-upper-half', { from: (targets.ph.low + targets.ph.high) / 2, to: targets.ph.high }),
      item('chlorine-to', { to: targets['free-chlorine'].high }),
      item('mix-a-day'),
      hasCell && item('cell-stored', isMild ? { mild: 1 } : {}),
      pool.heater !== 'none' && item('heater-closed', pool.heater === 'collector' ? { collector: 1 } : {}),
      isMild ? item('mild-winter') : item('frost-level', pool.surface === 'vinyl' ? { liner: 1 } : {}),
      !isMild && item('frost-drain', pool.filter?.kind === 'cartridge' ? { cartridge: 1 } : {}),
      !isMild && item('cover-winter'),
      item('products-away'),
      item('monthly-look'),
    ],
    [
      'never-empty',
      pool.surface === 'vinyl' && 'liner-moves',
      'drown-cover',
      'isolate-cell',
      'discharge-permission',
      'discharge-downhill',
      hasCell && 'discharge-salt',
      'children-away',
    ],
  );
}
