import fc from 'fast-check';
import { checkWater } from '../../../src/core/water/check.ts';
import type { Water } from '../../../src/core/water/water.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const mostlyNone = (max: number) => fc.oneof(fc.constant(0), between(0, max));

/** Waters of home pools, the neglected ones included. */
export const anyWater: fc.Arbitrary<Water> = fc
  .record({
    ph: between(6.4, 9),
    temperatureC: between(0, 45),
    totalAlkalinity: between(15, 400),
    calciumHardness: mostlyNone(1000),
    salt: mostlyNone(8000),
    cyanuricAcid: mostlyNone(150),
    boron: mostlyNone(60),
    freeChlorine: mostlyNone(20),
    combinedChlorine: mostlyNone(5),
    sulfate: mostlyNone(2000),
  })
  .filter((water) => checkWater(water).length === 0);

/** Whatever the checks let through. */
export const extremeWater: fc.Arbitrary<Water> = fc
  .record({
    ph: between(4, 11),
    temperatureC: between(0, 45),
    totalAlkalinity: between(0, 1000),
    calciumHardness: between(0, 3000),
    salt: mostlyNone(25_000),
    cyanuricAcid: mostlyNone(1000),
    boron: mostlyNone(200),
    freeChlorine: mostlyNone(200),
    combinedChlorine: mostlyNone(100),
    sulfate: mostlyNone(5000),
  })
  .filter((water) => checkWater(water).length === 0);

/** Seeded, so that a failure comes back. */
export const runs = (numRuns = 200) => ({ seed: 20_260_501, numRuns });
