/**
 * The pH that no predicted water leaves on the way: a dose that would is cut down or split. Common practice, no source:
 * below, people and metals suffer; above, bicarbonate by itself doesn't take the water.
 */
export const SAFE_PH = { low: 6.8, high: 8.4 } as const;
