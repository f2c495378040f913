/** What a scale's file needs to be read or written. Loaded when there is one. */
export { MAX_BYTES, readScaleFile, scaleFileText } from '../../core/scale/read-file.ts';
export { faultSentence } from '../../words/faults.ts';
