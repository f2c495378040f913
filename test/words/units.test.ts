import { expect, it } from 'vitest';
import { temperatureText, volumeText } from '../../src/words/units.ts';

/** 26 °C is 78.8 °F exactly; 10,000 L are 2,642 US gal (NIST SP 811: 3.785 411 784 L to the gallon). */
it('says quantities in the units somebody has chosen', () => {
  expect(temperatureText(26, 'metric')).toBe('26\u00a0°C');
  expect(temperatureText(26, 'us')).toBe('78.8\u00a0°F');
  expect(temperatureText(-1.26, 'metric')).toBe('−1.3\u00a0°C');
  expect(volumeText(10_000, 'metric')).toBe('10,000\u00a0L');
  expect(volumeText(10_000, 'us')).toBe('2,642\u00a0US gal');
});
