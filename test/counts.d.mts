export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}
export function unitTestCounts(file: string): Counts;
export function pageTestCounts(file: string): Counts;
export function addCounts(a: Counts, b: Counts): Counts;
export function countsLine(counts: Counts): string;
