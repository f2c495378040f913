/** Why the chemistry gives no number. Surfaces word the codes. */
export type WaterErrorCode =
  /** The readings can't be those of one water: less alkalinity than its pH and its other acids call for. */
  | 'contradictory'
  /** No pH between 1 and 13 balances the contents. */
  | 'no-equilibrium'
  /** An amount is negative or not a number. */
  | 'bad-amount'
  /** A product's strength is 0, or more than the substance can have. */
  | 'bad-strength'
  /** More is to be taken out than there is. */
  | 'not-that-much-there'
  /** The move can't reach the target, however much of it. */
  | 'out-of-reach';

export class WaterError extends Error {
  readonly code: WaterErrorCode;

  constructor(code: WaterErrorCode) {
    super(code);
    this.name = 'WaterError';
    this.code = code;
  }
}
