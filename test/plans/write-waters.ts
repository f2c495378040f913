// `npm run waters`: writes the plans of thirty waters, three lines each, to test/plans/WATERS.md.
import { writeFileSync } from 'node:fs';
import { watersText } from './waters-text.ts';

writeFileSync(new URL('WATERS.md', import.meta.url), watersText());
