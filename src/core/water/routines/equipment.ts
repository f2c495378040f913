/** Care of what stands beside the pool: filter, cell, heater. */
import { heatNeeded } from '../../pool/heat.ts';
import { DERATING } from '../../pool/turnover.ts';
import type { Plan } from '../plan/types.ts';
import { course, item, type Course } from './item.ts';

/** Share above the clean pressure at which a filter is cleaned. Common practice, no source. */
export const DIRTY_SHARE = 0.25;
/** Minutes of backwash and rinse. Common practice, no source. */
const BACKWASH_MINUTES = 3.5;
/** Share of the clean pressure below which too little water comes in. Common practice, no source. */
const STARVED_SHARE = 0.8;

export function backwash({ input: { pool }, now }: Plan): Course {
  const { filter, pump } = pool;
  const isCartridge = filter?.kind === 'cartridge';
  const { cleanBar: clean, nowBar } = filter ?? {};
  const flow = pump && pump.litresPerHour * (pump.basis === 'measured' ? 1 : DERATING.value);
  const litres = flow === undefined ? undefined : (flow * BACKWASH_MINUTES) / 60;
  const cost = litres === undefined ? {} : { litres, saltGrams: (litres * now.water.salt) / 1000 };
  const gauge = gaugeItem(clean, nowBar);
  const isSalt = pool.chlorination === 'chlorinator';
  return course(
    [
      gauge,
      item('cell-and-heater-off'),
      item('pump-off'),
      ...(isCartridge
        ? [item('air-valve-open'), item('rinse-cartridge'), item('lid-on')]
        : [
            item('hose-out'),
            item('valve-backwash', { minutes: 3 }),
            item('valve-rinse', { minutes: 0.5 }),
            item('valve-filter'),
          ]),
      item('write-clean-pressure'),
      !isCartridge && item('top-up', cost),
      item('cell-and-heater-on'),
    ],
    [
      'filter-under-pressure',
      ...(isCartridge ? [] : (['discharge-permission', 'discharge-downhill', isSalt && 'discharge-salt'] as const)),
    ],
  );
}

function gaugeItem(clean: number | undefined, now: number | undefined) {
  if (clean === undefined) return item('gauge-unknown');
  const at = clean * (1 + DIRTY_SHARE);
  if (now === undefined) return item('gauge-clean-known', { clean, at });
  if (now >= at) return item('gauge-clean-it', { clean, now, at });
  return now < clean * STARVED_SHARE ? item('gauge-starved', { clean, now }) : item('gauge-wait', { clean, now, at });
}

/** mL of hydrogen with each gram of chlorine, at 25 °C and 1 atm: 22.414 L/mol x 298.15/273.15 over 70.90 g/mol. */
const HYDROGEN_ML_PER_GRAM = (22_414 * (298.15 / 273.15)) / 70.9;

export function careOfCell({ input: { pool }, findings }: Plan): Course {
  const isHard = findings.some(({ target, judgement }) => target === 'calcium-hardness' && judgement === 'high');
  const scales = findings.some(({ target, judgement }) => target === 'saturation-index' && judgement === 'high');
  const cell = pool.cell;
  return course(
    [
      item('look-monthly', isHard || scales ? { sooner: 1 } : {}),
      item('cell-power-off'),
      item('cell-out'),
      item('what-it-shows'),
      item('water-first'),
      item('acid-last'),
      item('acid-steps'),
      item('acid-rinse'),
      item('cell-back'),
      item('flow-switch'),
      item('hydrogen', cell ? { litresPerHour: (cell.gramsPerHour * HYDROGEN_ML_PER_GRAM) / 1000 } : {}),
    ],
    [
      'isolate-cell',
      'into-water',
      'acid-and-chlorine',
      'protection',
      'open-outdoors',
      'feed-stops-with-pump',
      'electricity',
    ],
  );
}

/** Of a day a collector gets sun worth running for. Common practice, no source. */
const SUN_HOURS = 6;

export function warming({ input: { pool, readings }, now }: Plan): Course {
  const { heat, heater } = pool;
  const temperature = readings.temperature && now.water.temperatureC;
  const rise = heat?.targetC !== undefined && temperature !== undefined ? heat.targetC - temperature : undefined;
  const kWh = rise !== undefined && rise > 0 ? heatNeeded(pool.volumeLitres, rise) : undefined;
  const hours = kWh !== undefined && heat?.kilowatts !== undefined ? kWh / heat.kilowatts : undefined;
  const isCollector = heater === 'collector';
  return course(
    [
      kWh === undefined
        ? item('warm-unknown', { perDegree: heatNeeded(pool.volumeLitres, 1) })
        : item('warm-needs', { to: heat!.targetC!, from: temperature!, kWh, ...(hours !== undefined && { hours }) }),
      isCollector && hours !== undefined && item('warm-days', { days: hours / SUN_HOURS, sunHours: SUN_HOURS }),
      item(isCollector ? 'collector-hours' : 'heater-flow'),
      heater === 'copper' && item('copper-ph'),
      heater === 'copper' && pool.chlorination === 'trichlor' && item('copper-no-tablets'),
      heater === 'other' && pool.chlorination === 'chlorinator' && item('metal-and-salt'),
      isCollector && item('collector-drain'),
      item('cover-saves'),
      item('warm-uses-chlorine'),
      item('heater-stops-first'),
    ],
    ['electricity', 'too-hot'],
  );
}
