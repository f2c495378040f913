/** What a field asks whose number has two meanings. */
import { numberText } from './numbers.ts';

export const WHICH_NUMBER = 'Which number is meant?';

/** Said where a form can't be taken before its field has been answered. */
export const ANSWER_FIRST = 'One number can be read in two ways. Please choose above which is meant.';

export const NOT_A_VALUE = 'That is no value that a test can give.';

export function choiceOfNumber(value: number): string {
  return numberText(value, { figures: 12 });
}
