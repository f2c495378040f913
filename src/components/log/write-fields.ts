/** The forms of what can be written into the logbook by hand: their fields, in order. */
import { AMOUNT_UNITS, type EntryKind, SKIES } from '../../core/log/schema.ts';
import { quantityTitle } from '../../words/quantities.ts';
import { TYPED_METHODS } from '../../core/measurement/methods.ts';
import { QUANTITY_IDS, unitOf } from '../../core/measurement/quantities.ts';
import { PRODUCT_IDS } from '../../core/water/products.ts';
import { productName } from '../../words/plan/names.ts';
import { METHOD_CHOICES } from '../../words/methods.ts';
import { capitalised } from '../../words/grammar.ts';
import { SKY_WORDS, UNIT_WORDS } from '../../words/log.ts';

type Option = readonly [value: string, text: string];

export interface WriteField {
  readonly id: string;
  readonly name: string;
  readonly label: string;
  /** What stands behind the field; °C turns into the visitor's own. */
  readonly unit?: string;
  /** Units to choose from. */
  readonly units?: { readonly name: string; readonly label: string; readonly options: readonly Option[] };
  /** Of a choice; other fields are typed. */
  readonly options?: readonly Option[];
  readonly inputmode?: 'decimal' | 'numeric';
  readonly placeholder?: string;
  readonly maxlength?: number;
}

export interface WriteForm {
  readonly kind: Exclude<EntryKind, 'plan'>;
  readonly title: string;
  /** Ends the ids of the fields that every form has. */
  readonly letter: string;
  readonly fields: readonly WriteField[];
}

export const WRITE_FORMS: readonly WriteForm[] = [
  {
    kind: 'reading',
    title: 'Values of a drop kit, a meter or another test',
    letter: 'r',
    fields: [
      {
        ...field('method', 'Measured with'),
        options: TYPED_METHODS.map((method): Option => [method, METHOD_CHOICES[method]]),
      },
      ...QUANTITY_IDS.map((id) => number(id, quantityTitle(id), id === 'ph' ? '' : unitOf(id))),
    ],
  },
  {
    kind: 'addition',
    title: 'An addition',
    letter: 'a',
    fields: [
      {
        ...field('product', 'What'),
        options: [
          ['', 'choose'],
          ...PRODUCT_IDS.map((id): Option => [id, capitalised(productName(id))]),
          ['water', 'Fresh water'],
          ['other', 'Something else'],
        ],
      },
      {
        ...number('amount', 'How much'),
        units: {
          name: 'unit',
          label: 'Unit of the amount',
          options: AMOUNT_UNITS.map((unit): Option => [unit, UNIT_WORDS[unit]]),
        },
      },
      { ...number('strength', 'Strength on the label', '%'), placeholder: 'usual' },
      { ...field('name', 'Called'), maxlength: 120, placeholder: 'as above' },
    ],
  },
  {
    kind: 'weather',
    title: 'The weather',
    letter: 'w',
    fields: [
      {
        ...field('sky', 'Sky'),
        options: [['', 'not noted'], ...SKIES.map((sky): Option => [sky, SKY_WORDS[sky]])],
      },
      number('air', 'Air temperature', '°C'),
      number('rain', 'Rain', 'mm'),
      { ...field('bathers', 'Bathers'), inputmode: 'numeric' },
    ],
  },
  { kind: 'note', title: 'A note', letter: 'n', fields: [] },
];

function field(name: string, label: string): WriteField {
  return { id: `w-${name}`, name, label };
}

function number(name: string, label: string, unit?: string): WriteField {
  return { ...field(name, label), inputmode: 'decimal', ...(unit !== undefined && { unit }) };
}
