/**
 * Numbers as people type them, in any script and by any habit: '40,000', '1.500,5', '0,050', '1 500', '１５００', '١٬٥٠٠'.
 *
 * Only one kind of text has two meanings: a single comma or point before exactly three digits ('1,500'). What the
 * quantity can be settles most of them, and the habits of the visitor's languages others; what is left has to be asked.
 */

/** What a number can be, ends included, in the unit in which it is typed. */
export interface Plausible {
  readonly min: number;
  readonly max: number;
}

export type TypedNumber =
  | { readonly kind: 'blank' }
  | { readonly kind: 'number'; readonly value: number }
  /** The likelier meaning first: that of the first language. */
  | { readonly kind: 'unclear'; readonly values: readonly [number, number] }
  | { readonly kind: 'not-a-number' };

type Role = 'group' | 'decimal';

/** In threes, or as in India in twos before the last three. */
const GROUPED = /^[1-9]\d{0,2}(?:(?:G\d{3})+|(?:G\d{2})*G\d{3})$/;

/** @param locales BCP 47 tags of the languages whose habits count, the visitor's own first */
export function readNumber(text: string, locales: readonly string[], plausible?: Plausible): TypedNumber {
  const [, sign, body] = /^([+-]?) ?(.*)$/s.exec(inAscii(text))!;
  if (sign === '' && body === '') return { kind: 'blank' };
  const number = (value: number): TypedNumber => ({ kind: 'number', value });
  const signed = (value: number | null) => (value !== null && sign === '-' ? 0 - value : value);
  const decimal = signed(asDecimal(body!));
  const group = signed(asGroups(body!));
  const only = decimal ?? group;
  if (only === null) return { kind: 'not-a-number' };
  if (decimal === null || group === null) return number(only);
  const fits = [decimal, group].filter((value) => plausible && value >= plausible.min && value <= plausible.max);
  if (fits.length === 1) return number(fits[0]!);
  const roles = rolesOf(/[.,]/.exec(body!)![0], locales);
  const [first, second] = roles[0] === 'group' ? [group, decimal] : [decimal, group];
  return new Set(roles).size === 1 ? number(first) : { kind: 'unclear', values: [first, second] };
}

/** A number for a field: in every language it is read as itself, so it has no three decimals and no groups. */
export function fieldNumber(value: number, figures = 6): string {
  const text = String(Number(value.toPrecision(figures)));
  return /^-?[1-9]\d{0,2}\.\d{3}$/.test(text) ? `${text}0` : text;
}

/** Digits and marks of other scripts as ASCII, blanks and apostrophes of every width as one blank. */
function inAscii(text: string): string {
  return text
    .normalize('NFKC')
    .replace(/[\u200e\u200f\u061c\u2066-\u2069]/g, '')
    .trim()
    .replace(/\p{Nd}/gu, (digit) => String(digitValue(digit.codePointAt(0)!)))
    .replace(/^[\u2010-\u2013\u2212]/, '-')
    .replace(/[\s'’‘\u02bc´`\u066c\u2e41]/g, ' ')
    .replace(/[\u060c\u3001]/g, ',')
    .replace(/[\u3002·]/g, '.');
}

/** Unicode keeps the ten digits of a script together, nought first. */
function digitValue(code: number): number {
  let value = 0;
  while (value < 9 && /\p{Nd}/u.test(String.fromCodePoint(code - value - 1))) value += 1;
  return value;
}

/** With its last mark as the decimal one; null where it can't be that. The Arabic decimal mark is one always. */
function asDecimal(body: string): number | null {
  if (/^\d+$/.test(body)) return Number(body);
  const [, front, mark, decimals] = /^([\d., ]*)([.,\u066b])(\d*)$/.exec(body) ?? [];
  if (front === undefined || decimals === undefined || front + decimals === '' || front.includes(mark!)) return null;
  const whole = /^\d*$/.test(front) ? Number(front) : asGroups(front);
  return whole === null ? null : Number(`${whole}.${decimals}`);
}

/** With all its marks, of one kind, between groups of digits. Groups don't begin with nought: '0,050' is no fifty. */
function asGroups(body: string): number | null {
  const mark = /[., ]/.exec(body)?.[0];
  if (mark === undefined || !GROUPED.test(body.replaceAll(mark, 'G'))) return null;
  return Number(body.replaceAll(mark, ''));
}

const marks = new Map<string, Readonly<Record<Role, string | undefined>>>();

/** What the mark is in each language that has it at all. */
function rolesOf(mark: string, locales: readonly string[]): Role[] {
  return locales.flatMap((locale): Role[] => {
    const known = marks.get(locale) ?? marksOf(locale);
    marks.set(locale, known);
    if (known.group === mark) return ['group'];
    return known.decimal === mark ? ['decimal'] : [];
  });
}

function marksOf(locale: string): Record<Role, string | undefined> {
  const parts = new Intl.NumberFormat(locale).formatToParts(1_234_567.5);
  const of = (type: Role) => parts.find((part) => part.type === type)?.value;
  return { group: of('group'), decimal: of('decimal') };
}
