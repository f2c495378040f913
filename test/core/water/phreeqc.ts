import { waterOf, type Water } from '../../../src/core/water/water.ts';
import type { Row } from '../../reference/read-table.ts';

const number = (row: Row, ...names: string[]) => {
  const name = names.find((candidate) => candidate in row);
  if (name === undefined) throw new Error(`no column ${names.join(' or ')}`);
  const value = Number(row[name]);
  if (row[name] === '' || !Number.isFinite(value)) throw new Error(`${name} is not a number: ${row[name]}`);
  return value;
};

/** The water a row of the PHREEQC tables starts from. */
export function waterOfRow(row: Row): Water {
  return waterOf({
    ph: number(row, 'pH', 'pH_start'),
    temperatureC: number(row, 'temp_C'),
    totalAlkalinity: number(row, 'total_alkalinity_mgL_CaCO3', 'TA_start_mgL_CaCO3'),
    calciumHardness: number(row, 'calcium_hardness_mgL_CaCO3'),
    salt: number(row, 'nacl_mgL'),
    cyanuricAcid: number(row, 'cya_mgL'),
    boron: number(row, 'boron_mgL'),
  });
}
