/** A file of the card with a mark of its own, saved when its link is followed. Without a script the link gives one without. */
import { CARD_TAKEN_KEY, remember } from '../../browser/remembered.ts';
import { saveFile } from '../../browser/save-file.ts';
import { printMarkAt, printMarkName } from '../../core/card/print-mark.ts';
import { stampPdf } from '../../core/card/stamp-pdf.ts';

/** @returns what to say of it */
export async function saveMarked(address: string): Promise<string> {
  try {
    const response = await fetch(address);
    if (!response.ok) throw new Error(`${response.status}`);
    const mark = printMarkAt(crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32);
    const file = address
      .split('/')
      .at(-1)!
      .replace('.pdf', `-${printMarkName(mark)}.pdf`);
    saveFile(file, [stampPdf(new Uint8Array(await response.arrayBuffer()), mark)], 'application/pdf');
    remember(CARD_TAKEN_KEY, 'yes');
    return `Saved as ${file}. Its cards bear the mark ${printMarkName(mark)}.`;
  } catch (error) {
    console.error(error);
    return 'The file couldn’t be fetched. Try again when you are online.';
  }
}
