/**
 * Fewer registrations: at its start OpenCV tells JavaScript of 1,700 functions, constants and members, each of which is
 * wrapped at once. Only the few that are used here are let through.
 */
import type { Cv } from './opencv.ts';

/** Where the engine finds what JavaScript gives it; the names are those of Emscripten's embind. */
interface Imports {
  readonly env: Readonly<Record<string, unknown>> & { readonly memory: { readonly buffer: ArrayBuffer } };
}

type Register = (...parameters: readonly number[]) => void;

/** Members of `Cv` by the name they are registered with, and those of its classes. */
const NAMES: ReadonlySet<string> = new Set<keyof Cv | 'rows' | 'cols' | 'data' | 'data32S'>([
  'Mat',
  'CV_8UC1',
  'CV_32S',
  'ADAPTIVE_THRESH_MEAN_C',
  'THRESH_BINARY_INV',
  'THRESH_OTSU',
  'adaptiveThreshold',
  'threshold',
  'GaussianBlur',
  'connectedComponentsWithStats',
  'exceptionFromPtr',
  'rows',
  'cols',
  'data',
  'data32S',
]);

/** The same imports, where what isn't used is not registered. */
export function onlyUsed(imports: object): object {
  const { env } = imports as Imports;
  const nameAt = (pointer: number) => {
    const bytes = new Uint8Array(env.memory.buffer);
    return String.fromCharCode(...bytes.subarray(pointer, bytes.indexOf(0, pointer)));
  };
  const classes = new Set<number>();
  const filtered: Record<string, Register> = {};
  const register = (what: string, isUsed: (...parameters: readonly number[]) => boolean) => {
    const key = `__embind_register_${what}`;
    const real = env[key] as Register;
    filtered[key] = (...parameters) => {
      if (isUsed(...parameters)) real(...parameters);
    };
  };
  register('function', (name) => NAMES.has(nameAt(name!)));
  register('constant', (name) => NAMES.has(nameAt(name!)));
  register('class', (...parameters) => {
    const isUsed = NAMES.has(nameAt(parameters[CLASS_NAME]!));
    if (isUsed) classes.add(parameters[0]!);
    return isUsed;
  });
  register('class_constructor', (type) => classes.has(type!));
  register('class_property', (type, name) => classes.has(type!) && NAMES.has(nameAt(name!)));
  register('class_function', () => false);
  register('class_class_function', () => false);
  register('smart_ptr', () => false);
  return { ...imports, env: { ...env, ...filtered } };
}

/** Which parameter of `__embind_register_class` points to the name: after ten about types and casts. */
const CLASS_NAME = 10;
