/** What an explainer may use without importing it. */
import Balance from './Balance.astro';
import Caution from './Caution.astro';
import Check from './Check.astro';
import Formula from './Formula.astro';
import Link from './Link.astro';
import Myth from './Myth.astro';
import Ranges from './Ranges.astro';
import Ref from './Ref.astro';
import Sources from './Sources.astro';
import Table from './Table.astro';

export const parts = { a: Link, Balance, Caution, Check, Formula, Myth, Ranges, Ref, Sources, table: Table };
