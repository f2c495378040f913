/** The part of subset-font that is used here; the package brings no types. */
declare module 'subset-font' {
  interface Options {
    targetFormat: 'sfnt' | 'woff' | 'woff2';
    /** Tags of the OpenType features that stay. */
    keepFeatures?: string[];
    noHinting?: boolean;
    /** Without the glyphs that only features lead to. */
    noLayoutClosure?: boolean;
    /** Entries of the name table that stay besides the family's. */
    preserveNameIds?: number[];
  }
  export default function subsetFont(font: Buffer, text: string, options: Options): Promise<Buffer>;
}
