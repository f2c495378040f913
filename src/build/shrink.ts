/** Takes out of a WebAssembly module what nobody calls. */
import {
  BinaryReader,
  type IExportEntry,
  type IImportEntry,
  type IOperatorInformation,
  type ISectionInformation,
} from 'wasmparser';

/** The parser's states, by its own numbers: its `const enum` can't be imported where types are only stripped. */
const STATE = {
  error: -1,
  beginSection: 3,
  endSection: 4,
  importEntry: 12,
  exportEntry: 17,
  beginFunction: 28,
  operator: 30,
} as const;
/** A section's code, and a kind of import and export: the core specification, sections 5.5.2 and 5.5.5. */
const CODE_SECTION = 10;
const FUNCTION = 0;
/** `call` of the core specification, section 5.4.1. */
const CALL = 0x10;
/** A function's code in its section: 3 bytes; no locals, `unreachable`, `end`. */
const TRAP = Uint8Array.of(3, 0x00, 0x00, 0x0b);

interface Code {
  /** How many functions are imported: the first of the module's own has this index. */
  readonly imported: number;
  readonly exported: readonly number[];
  /** For each of the module's own functions those it names in calls. */
  readonly calls: readonly (readonly number[])[];
  /** Where the code section's content lies, bytes from the start of the file. */
  readonly from: number;
  readonly to: number;
}

/**
 * The same module, where every function that can't be reached is replaced by one that traps. Reached is what is
 * exported, what `entered` lists, and whatever these call by name, on and on. Indices stay as they are.
 * @param entered indices of functions that are called through the table, which can't be told from the code
 */
export function shrink(wasm: Uint8Array, entered: Iterable<number>): Uint8Array<ArrayBuffer> {
  const code = readCode(wasm);
  const reached = reachedFrom([...code.exported, ...entered], code);
  const read = { bytes: wasm, at: code.from };
  const count = readNumber(read);
  const parts = [writeNumber(count)];
  for (let i = 0; i < count; i++) {
    const start = read.at;
    const size = readNumber(read);
    read.at += size;
    parts.push(reached.has(code.imported + i) ? wasm.subarray(start, read.at) : TRAP);
  }
  const content = joined(parts);
  // Before a section's content stand its code, one byte, and its size.
  const header = code.from - writtenLength(wasm, code.from) - 1;
  return joined([
    wasm.subarray(0, header),
    Uint8Array.of(CODE_SECTION),
    writeNumber(content.length),
    content,
    wasm.subarray(code.to),
  ]);
}

function readCode(wasm: Uint8Array): Code {
  const reader = new BinaryReader();
  reader.setData(wasm.slice().buffer, 0, wasm.length);
  let imported = 0;
  let section = { id: -1, from: 0 };
  let [from, to] = [0, 0];
  const exported: number[] = [];
  const calls: number[][] = [];
  while (reader.read()) {
    switch (reader.state as number) {
      case STATE.error:
        throw reader.error;
      case STATE.beginSection:
        section = { id: (reader.result as ISectionInformation).id, from: reader.position };
        break;
      case STATE.endSection:
        if (section.id === CODE_SECTION) [from, to] = [section.from, reader.position];
        break;
      case STATE.importEntry:
        if ((reader.result as IImportEntry).kind === FUNCTION) imported++;
        break;
      case STATE.exportEntry: {
        const { kind, index } = reader.result as IExportEntry;
        if (kind === FUNCTION) exported.push(index);
        break;
      }
      case STATE.beginFunction:
        calls.push([]);
        break;
      case STATE.operator: {
        const { code, funcIndex } = reader.result as IOperatorInformation;
        if (code === CALL) calls.at(-1)!.push(funcIndex!);
        break;
      }
    }
  }
  return { imported, exported, calls, from, to };
}

function reachedFrom(roots: readonly number[], { imported, calls }: Code): Set<number> {
  const reached = new Set<number>();
  const open = [...roots];
  for (let index = open.pop(); index !== undefined; index = open.pop()) {
    if (reached.has(index)) continue;
    reached.add(index);
    if (index >= imported) open.push(...calls[index - imported]!);
  }
  return reached;
}

/** An unsigned LEB128 number, section 5.2.2. */
function readNumber(read: { readonly bytes: Uint8Array; at: number }): number {
  let value = 0;
  for (let shift = 0; ; shift += 7) {
    const byte = read.bytes[read.at++];
    if (byte === undefined) throw new Error('The WebAssembly file ends too soon.');
    value += (byte & 0x7f) * 2 ** shift;
    if (byte < 0x80) return value;
  }
}

function writeNumber(value: number): Uint8Array {
  const bytes: number[] = [];
  for (let rest = value; ; rest = Math.floor(rest / 128)) {
    if (rest < 128) return Uint8Array.from([...bytes, rest]);
    bytes.push((rest % 128) + 128);
  }
}

/** How many bytes the number takes that ends before a place: all but its last have their top bit set. */
function writtenLength(bytes: Uint8Array, end: number): number {
  let start = end - 1;
  while (bytes[start - 1]! >= 0x80) start--;
  return end - start;
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
