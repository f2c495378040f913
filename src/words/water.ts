/** What is wrong with a water, as the command says it. */
import type { WaterIssue } from '../core/water/check.ts';
import { listText } from './grammar.ts';
import type { WaterErrorCode } from '../core/water/errors.ts';

/** Readings go by the names that the lines use. */
export function issueSentence(issue: WaterIssue): string {
  switch (issue.code) {
    case 'missing':
      return `${issue.reading} is missing`;
    case 'not-a-number':
      return `${issue.reading} must be a number`;
    case 'negative':
      return `${issue.reading} can’t be negative`;
    case 'impossible':
      return 'ph must lie between 0 and 14';
    case 'too-low':
      return `${issue.reading} below ${issue.limit} is outside what can be worked out here`;
    case 'too-high':
      return `${issue.reading} above ${issue.limit} is outside what can be worked out here`;
    case 'looks-like-fahrenheit':
      return 'temperatureC looks like degrees Fahrenheit: give degrees Celsius';
    case 'too-little-alkalinity':
      return `these can’t all be right: ${listText(issue.readings)}. There is less alkalinity than that pH and those acids make by themselves`;
    case 'too-much-carbon-dioxide':
      return `these can’t both be right: ${listText(issue.readings)}. So much alkalinity at so low a pH would make the water fizz`;
    case 'too-concentrated':
      return `${listText(issue.readings)} together are saltier than can be worked out here`;
  }
}

export function errorSentence(code: WaterErrorCode): string {
  switch (code) {
    case 'contradictory':
      return 'the readings can’t be those of one water';
    case 'out-of-reach':
      return 'targetPh is out of reach';
    default:
      return 'no equilibrium was found for this water';
  }
}
