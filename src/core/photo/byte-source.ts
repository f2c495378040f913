/** Bytes of a file, read where they are needed, so that a header costs no more than its own length. */
export interface ByteSource {
  /** Bytes. */
  readonly size: number;
  /** May give fewer bytes than asked for, at the end of the file. */
  read(from: number, to: number): Promise<Uint8Array>;
}

/** Read at once; most headers lie within. */
const WINDOW_BYTES = 65_536;

/** Numbers out of a file, big-endian unless named otherwise; null wherever the file ends too soon. */
export class ByteReader {
  readonly #source: ByteSource;
  #window: Uint8Array = new Uint8Array();
  #start = 0;

  constructor(source: ByteSource) {
    this.#source = source;
  }

  get size(): number {
    return this.#source.size;
  }

  async bytes(from: number, length: number): Promise<Uint8Array | null> {
    const to = from + length;
    if (!(from >= 0 && length >= 0 && to <= this.size)) return null;
    if (from < this.#start || to > this.#start + this.#window.length) {
      this.#window = await this.#source.read(from, Math.min(this.size, from + Math.max(length, WINDOW_BYTES)));
      this.#start = from;
    }
    const found = this.#window.subarray(from - this.#start, to - this.#start);
    return found.length === length ? found : null;
  }

  async view(from: number, length: number): Promise<DataView | null> {
    const found = await this.bytes(from, length);
    return found && new DataView(found.buffer, found.byteOffset, found.byteLength);
  }

  async text(from: number, length: number): Promise<string | null> {
    const found = await this.bytes(from, length);
    return found && latin1(found);
  }

  /** The last bytes of the file, at most so many. */
  async tail(length: number): Promise<Uint8Array> {
    return (await this.bytes(Math.max(0, this.size - length), Math.min(length, this.size))) ?? new Uint8Array();
  }
}

/** Of few bytes: each is an argument of a call. */
export function latin1(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes);
}
