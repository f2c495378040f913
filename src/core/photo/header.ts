/** What the first bytes of a photo say about it, before anything is decoded. */

export type PhotoKind = 'jpeg' | 'png' | 'webp' | 'avif' | 'heic';

export interface PhotoHeader {
  readonly kind: PhotoKind;
  /** As stored, px: an orientation tag may turn them round. */
  readonly width: number;
  readonly height: number;
  /** 'inks' = CMYK or YCCK; 'palette' = a list of at most 256 colours. */
  readonly colours: 'rgb' | 'grey' | 'inks' | 'palette';
  /** Coded for a high-dynamic-range screen (PQ or HLG). */
  readonly hdr: boolean;
  /** Nothing is missing at the end of the file. */
  readonly complete: boolean;
}

/** Transfer characteristics of ITU-T H.273, table 3: 16 = PQ, 18 = HLG. */
export function isHdrTransfer(code: number): boolean {
  return code === 16 || code === 18;
}
