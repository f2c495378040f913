/** Numbers as a person would say them: no more digits than a strip can support. */

/** The step to which a value of this size is shown. */
function displayStep(value: number, unit: 'mg/L' | 'pH' | undefined): number {
  const size = Math.abs(value);
  if (unit === 'pH' || size < 10) return 0.1;
  if (size < 100) return 1;
  return size < 1000 ? 5 : 50;
}

/** A value as it stands, without a tail of zeros: block values and typed values. */
export function formatValue(value: number): string {
  return String(Number(value.toPrecision(6)));
}

export function formatMeasured(value: number, unit: 'mg/L' | 'pH'): string {
  return rounded(value, unit, Math.round);
}

/** Rounded outwards, so that what is shown never claims more than was found. */
export function formatInterval(low: number, high: number, unit: 'mg/L' | 'pH'): string {
  return `${rounded(low, unit, Math.floor)} to ${rounded(high, unit, Math.ceil)}`;
}

function rounded(value: number, unit: 'mg/L' | 'pH', round: (x: number) => number): string {
  const step = displayStep(value, unit);
  const nearStep = Math.round(value / step);
  const steps = Math.abs(value / step - nearStep) < 1e-6 ? nearStep : round(value / step);
  if (steps === 0) return '0';
  return (steps * step).toFixed(step < 1 ? 1 : 0);
}
