/** Opening and closing. */
import type { Written } from './care.ts';

export const SEASONS: Readonly<Record<string, Written>> = {
  'look-around': 'Look: shell, drain covers, rails, cables, fence, gate. What is loose or broken is mended first.',
  'cover-off': 'Pump the water off the cover, sweep it, and lift it without tipping the dirt in.',
  'plugs-and-drains': 'Winter plugs out, drain screws of pump and filter in, valves open.',
  'fill-to-skimmer': 'Fill to the middle of the skimmer.',
  'pump-on-clear': 'Pump on, air valve open, and stand clear of the filter. Look for leaks. The cell stays off.',
  'brush-and-clean-filter': 'Brush, vacuum, clean the filter.',
  'mix-a-day': 'Run the pump for a day, so that it mixes.',
  'test-everything': ({ stabilizer }) =>
    `Test everything: temperature, pH, alkalinity, hardness, salt, chlorine${stabilizer === undefined ? '' : ', and stabilizer, which rain and bacteria may have taken over winter'}.`,
  'follow-plan':
    'Make the plan with that, and follow its order: water, alkalinity and pH, chlorine, stabilizer, calcium, salt.',
  'cell-last': ({ from, salt }, show) =>
    `Cell on only when the salt has mixed in for a day and is at ${show.plain(salt!)} mg/L or more, and the water is at ${show.degrees(from!)} or more.`,
  'heater-last': ({ collector }) =>
    collector === undefined
      ? 'Heater on last, once the pH has been right for a day.'
      : 'Open the collector last: what stood in its pipes over winter goes to waste first.',
  'hold-overnight':
    'If the first chlorine is gone by morning, go on: it holds overnight once what winter left has been used up.',
  'swim-when': ({ cold }) =>
    `Swim when the floor is clearly seen and chlorine and pH are in range${cold === undefined ? '.' : ', and not yet: this water is cold enough to take the breath.'}`,
  'wait-until-cool': ({ below }, show) =>
    `Wait until the water is below about ${show.degrees(below!)}: algae are slow then.`,
  'ph-upper-half': ({ from, to }, show) =>
    `pH into the upper half of its range, ${show.plain(from!)} to ${show.plain(to!)}: cold water is hungrier for lime.`,
  'cell-stored': ({ mild }) =>
    mild === undefined
      ? 'Chlorinator off at its isolator; cell out, rinsed, dry and free of frost.'
      : 'Chlorinator off while the water is below 15 °C; a bottle keeps the chlorine till then.',
  'heater-closed': ({ collector }) =>
    collector === undefined ? 'Heater off, and drained as its book says.' : 'Collector closed off and run empty.',
  'mild-winter': 'Where it never freezes the pool stays full: pump on for an hour or two a day, a test every week.',
  'frost-level': ({ liner }) =>
    `Pump off. Lower the water below skimmer and returns, ${liner === undefined ? 'no further' : 'no further: a liner needs its water'}, to where local rules allow it.`,
  'frost-drain': ({ cartridge }) =>
    `Drain pump, filter, heater and pipes, and plug them${cartridge === undefined ? '' : '; cartridge out, rinsed and dry'}. Let somebody show you once.`,
  'cover-winter': 'Cover on and fastened. Nobody walks on it, and its water is pumped off.',
  'products-away': 'Products dry, locked, acid apart from chlorine. Liquid chlorine won’t keep till spring.',
  'monthly-look': 'Once a month: level, cover, a look for green.',
};
