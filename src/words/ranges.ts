/** Published ranges as an explainer shows them: chosen by source, with whose they are in plain words. */
import { formatValue } from './numbers.ts';
import { rangesOf, type RangeParameter, type SourcedRange } from '../core/water/ranges.ts';

interface Whose {
  /** How the core's name of it begins. */
  readonly core: string;
  readonly status: SourcedRange['status'];
  /** How an owner would name it. */
  readonly plain: string;
  /** Where a body's editions differ. */
  readonly edition?: string;
}

/** By source id (src/content/sources.json). */
const WHOSE: Readonly<Record<string, Whose>> = {
  'cdc-home': { core: 'CDC healthy-swimming advice', status: 'read-elsewhere', plain: 'US advice for home pools' },
  mahc: {
    core: 'CDC Model Aquatic Health Code',
    status: 'read-elsewhere',
    plain: 'US model code, 2018',
    edition: '2018',
  },
  'mahc-2023': {
    core: 'CDC Model Aquatic Health Code',
    status: 'read-elsewhere',
    plain: 'US model code, 2023',
    edition: '2023',
  },
  'cdc-public': { core: 'CDC Operating and Managing', status: 'read', plain: 'US advice for public pools' },
  'mahc-memory': { core: 'CDC Model Aquatic Health Code', status: 'memory', plain: 'US model code' },
  montana: { core: 'Administrative Rules of Montana 37.115.1308', status: 'read', plain: 'A US state rule' },
  'anne-arundel': { core: 'Anne Arundel County MD code', status: 'read', plain: 'A US county code' },
  mil: { core: 'MIL-HDBK-1027/4A section 5.2.7', status: 'read', plain: 'US military handbook' },
  'ansi-11': { core: 'ANSI/APSP/ICC-11', status: 'read', plain: 'American standard, public pools' },
  'ansi-11-memory': { core: 'ANSI/APSP/ICC-11', status: 'memory', plain: 'American standard, public pools' },
  din: { core: 'DIN 19643-1', status: 'read-elsewhere', plain: 'German standard, public pools' },
  swiss: { core: 'SIA 385/9 (Switzerland)', status: 'read-elsewhere', plain: 'Swiss standard' },
  course: { core: 'pool-operator certification course page', status: 'read', plain: 'Operators’ course' },
  practice: { core: 'the trade', status: 'common-practice', plain: 'Common practice' },
};

export interface PlainRange {
  readonly sourceId: string;
  readonly whose: string;
  readonly range: SourcedRange;
}

/** The rows of these sources, in this order. @throws Error when a source has no range for the parameter */
export function plainRanges(parameter: RangeParameter, sourceIds: readonly string[]): PlainRange[] {
  return sourceIds.flatMap((sourceId) => {
    const { core, status, plain, edition } = WHOSE[sourceId] ?? fail(`no range can come from '${sourceId}'`);
    const rows = rangesOf(parameter).filter(
      (row) => row.whose.startsWith(core) && row.status === status && (edition ?? row.edition) === row.edition,
    );
    if (rows.length === 0) fail(`'${sourceId}' gives no range for ${parameter}`);
    const water = ({ water: of }: SourcedRange) => (['any', 'public', 'pool'].includes(of) ? '' : ` (${of})`);
    return rows.map((range) => ({ sourceId, whose: `${plain}${water(range)}`, range }));
  });
}

function fail(message: string): never {
  throw new Error(message);
}

/** '7.2 to 7.8', 'up to 90', 'from 1', or nothing. */
export function between(low: number | null, high: number | null): string {
  if (low === null && high === null) return '';
  if (low === null) return high === 0 ? '0' : `up to ${formatValue(high!)}`;
  if (high === null) return `from ${formatValue(low)}`;
  return low === high ? formatValue(low) : `${formatValue(low)} to ${formatValue(high)}`;
}
