/** The tool's report as a list of the changes that no test noticed, and as a table. */

interface Mutant {
  readonly status: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number; readonly column: number } };
}

export interface Report {
  readonly folder: string;
  readonly files: Readonly<Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>>;
}

/** A change that makes the code run without end is noticed too. */
const NOTICED = ['Killed', 'Timeout'];
const UNNOTICED = ['Survived', 'NoCoverage'];

export function isNoticed(status: string): boolean {
  return NOTICED.includes(status);
}

export function printSurvivors(reports: readonly Report[]): void {
  for (const { file, source, mutants } of filesOf(reports)) {
    for (const mutant of mutants.filter(({ status }) => UNNOTICED.includes(status))) {
      const { line, column } = mutant.location.start;
      const reach = mutant.status === 'NoCoverage' ? ', no test comes here' : '';
      console.log(`\n${file}:${line}:${column} ${mutant.mutatorName}${reach}`);
      console.log(`- ${source.split('\n')[line - 1]?.trim()}`);
      console.log(`+ ${oneLine(mutant.replacement)}`);
    }
  }
}

export function printTable(reports: readonly Report[]): void {
  console.log('\n| file | mutants | killed | survived | not reached | errors | not drawn |');
  console.log('| --- | ---: | ---: | ---: | ---: | ---: | ---: |');
  const files = filesOf(reports);
  for (const { file, mutants } of files) console.log(row(file.replace('src/core/', ''), mutants));
  for (const { folder } of reports) {
    const inFolder = files.filter(({ file }) => file.startsWith(`src/core/${folder}/`));
    console.log(
      row(
        `**${folder}**`,
        inFolder.flatMap(({ mutants }) => mutants),
      ),
    );
  }
}

function row(name: string, mutants: readonly Mutant[]): string {
  const count = (statuses: readonly string[]) => mutants.filter(({ status }) => statuses.includes(status)).length;
  const [noticed, unnoticed] = [count(NOTICED), count(UNNOTICED)];
  const counted = noticed + unnoticed;
  const share = counted === 0 ? '' : `${((100 * noticed) / counted).toFixed(1)} %`;
  const notDrawn = count(['CompileError']);
  const range = notDrawn > 0 && counted > 0 ? ` (${interval(noticed, counted)})` : '';
  const rest = [count(['Survived']), count(['NoCoverage']), count(['RuntimeError']), notDrawn];
  return `| ${[name, counted, share + range, ...rest].join(' | ')} |`;
}

/** Wilson's 95 % interval of a share, percent: what the share of all may be, when so many were drawn. */
function interval(hits: number, of: number): string {
  const [share, z] = [hits / of, 1.96];
  const middle = share + z ** 2 / (2 * of);
  const half = z * Math.sqrt((share * (1 - share)) / of + (z / (2 * of)) ** 2);
  return [middle - half, middle + half].map((end) => ((100 * end) / (1 + z ** 2 / of)).toFixed(1)).join('-');
}

function filesOf(reports: readonly Report[]) {
  return reports.flatMap(({ files }) =>
    Object.entries(files)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([file, found]) => ({ file, ...found })),
  );
}

function oneLine(text = ''): string {
  const line = text.replace(/\s+/g, ' ');
  return line.length > 160 ? `${line.slice(0, 157)}...` : line;
}
