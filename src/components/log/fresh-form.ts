/** The forms of the logbook before anything is typed. */
import { zoneMinutesAt } from '../../browser/store/ids.ts';
import { settings } from '../../browser/settings.ts';
import { rainUnit, temperatureUnit } from '../../words/units.ts';
import { need } from '../dom.ts';

/** The fields for the next entry: empty, and the time now. */
export function freshen(form: HTMLFormElement): void {
  form.reset();
  freshenTime(form);
}

/** The visitor's units: behind the fields, and to choose from first. */
export function showUnits(root: HTMLElement): void {
  const units = settings.units();
  for (const unit of root.querySelectorAll<HTMLElement>('[data-metric-unit]')) {
    unit.textContent = unit.dataset['metricUnit'] === 'mm' ? rainUnit(units) : temperatureUnit(units);
  }
  const amount = need<HTMLInputElement>(root, 'form [name=amount]');
  if (amount.value === '') need<HTMLSelectElement>(root, 'form [name=unit]').value = units === 'us' ? 'fl oz' : 'mL';
}

/** The time now, unless the visitor has put another one in its place. */
export function freshenTime(form: HTMLFormElement): void {
  const field = need<HTMLInputElement>(form, '[name=when]');
  if (field.value !== '' && field.value !== field.dataset['filledIn']) return;
  const now = new Date();
  const local = new Date(now.getTime() + zoneMinutesAt(now) * 60_000).toISOString().slice(0, 16);
  field.value = local;
  field.dataset['filledIn'] = local;
}
