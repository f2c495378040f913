/** What a person types as a number: a decimal point or comma, and commas between thousands. */

/** @returns undefined for a blank, NaN for what is no number */
export function parseNumber(text: string): number | undefined {
  const plain = text
    .trim()
    .replaceAll(/[\s\u00a0\u202f]/g, '')
    .replace('−', '-');
  if (plain === '') return undefined;
  if (/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain)) return Number(plain.replaceAll(',', ''));
  return /^-?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain) ? Number(plain.replace(',', '.')) : NaN;
}

/** Converted numbers, without a tail: four figures are more than anyone measures. */
export function formatConverted(value: number): string {
  return String(Number(value.toPrecision(4)));
}
