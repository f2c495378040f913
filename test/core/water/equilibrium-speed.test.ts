import { describe, expect, it } from 'vitest';
import { speciate } from '../../../src/core/water/equilibrium.ts';
import { waterOf } from '../../../src/core/water/water.ts';

describe('speed', () => {
  it('a whole speciation takes well under 0.2 ms of processor time', () => {
    const water = waterOf({
      ph: 7.5,
      totalAlkalinity: 90,
      calciumHardness: 250,
      salt: 3200,
      cyanuricAcid: 50,
      boron: 30,
      freeChlorine: 4,
    });
    const count = 2000;
    speciate(water);
    const before = process.cpuUsage();
    for (let i = 0; i < count; i++) speciate({ ...water, ph: 7 + i / count });
    const { user } = process.cpuUsage(before);
    expect(user / 1000 / count).toBeLessThan(0.2);
  });
});
