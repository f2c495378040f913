/** After rain, after a party, before leaving. */
import type { Written } from './care.ts';

export const OCCASIONS: Readonly<Record<string, Written>> = {
  'wait-for-thunder': 'Wait until the thunder is half an hour gone: nobody at the water or the switches before.',
  'clear-debris': 'Take out leaves and dirt, and empty the baskets of skimmer and pump.',
  'lower-to-skimmer': ({ litres }, show) =>
    `Let the level down to the middle of the skimmer${litres === undefined ? '' : `: about ${show.litres(litres)} came down on it`}, only to where local rules allow it, pump off if it falls below.`,
  'filter-on': ({ hours }, show) => `Run pump and filter for ${show.hours(hours!)} without a break.`,
  'rain-thins-salt': ({ from, to }, show) =>
    from === undefined || to === undefined
      ? 'Rain thins the salt as it runs over: test it tomorrow, once it has mixed.'
      : `If it all ran over, salt goes from ${show.plain(from)} to about ${show.plain(to)} mg/L: test it tomorrow, once it has mixed.`,
  'rain-thins-stabilizer': ({ from, to }, show) =>
    from === undefined || to === undefined
      ? 'So much rain thins the stabilizer too: test it within the week.'
      : `Stabilizer goes from ${show.plain(from)} to about ${show.plain(to)} mg/L: test it within the week.`,
  'test-then-plan':
    'Test free chlorine, pH and alkalinity, and make the plan anew: it puts pH before chlorine, as always.',
  'chlorine-before-night': 'The day’s chlorine goes in before the night: pollen and dust are already using it up.',
  'everybody-out': 'Everybody out before anything is added, and nobody in until the test says so.',
  'party-used': ({ bathers, fall }, show) =>
    `${show.plain(bathers!)} bathers use up about ${show.plain(fall!)} mg/L here (4 g each, 2 to 10; no source): a first idea, the test decides.`,
  'test-tonight': 'Test free chlorine, total chlorine and pH tonight, and make the plan anew with them.',
  'chlorine-to': ({ to }, show) =>
    `Bring free chlorine to the upper end of its target, ${show.plain(to!)} mg/L, as the plan doses it.`,
  'cell-overnight': ({ hours }, show) =>
    `Or run the cell at full output, with the pump, for about ${show.hours(hours!)} overnight.`,
  'test-combined': 'Test again in the morning: above 0.5 mg/L of combined chlorine, the plan says what to do.',
  'clean-filter-first': 'Clean the filter if its gauge asks for it: it can’t be asked while you are away.',
  'cell-set': ({ percent, hours }, show) =>
    `Set the chlorinator to ${show.plain(percent!, 3)} % for the ${show.hours(hours!)} of the pump’s timer.`,
  'somebody-doses': ({ days, lasts }, show) =>
    `What is in lasts about ${show.plain(Math.max(1, lasts!))} ${lasts! < 1.5 ? 'day' : 'days'}, and you are away for ${show.plain(days!)}: somebody has to test and dose, shown beforehand, or a feeder does.`,
  'tablets-in-feeder':
    'Tablets go into a floating or built-in feeder, never into the skimmer, and add stabilizer every day.',
  'ph-low-end': ({ to }, show) =>
    `Leave with the pH in the lower half of its range, not below ${show.plain(to!)}: it climbs while you are away.`,
  'cover-on': 'Cover on: it saves chlorine, warmth and water. Never a swimmer under it.',
  'level-high': 'Fill to the upper edge of the skimmer: two dry weeks take some centimetres.',
  'heater-down': 'Heater off, or down: warm water uses more chlorine.',
  'somebody-looks': ({ days }, show) =>
    `Somebody looks in every few days of the ${show.plain(days!)}: level, pump running, water clear. Leave a number to call.`,
  'lock-up': 'Gate locked, ladder up, products locked away. A pool nobody watches is the most dangerous one.',
  'test-on-return': 'When you are back: test before anybody swims, and make the plan anew.',
};
