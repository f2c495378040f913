/** A file of the card with a mark of its own, saved when its link is followed. Without a script the link gives one without. */
import { printMarkAt, printMarkName } from '../../core/card/print-mark.ts';
import { stampPdf } from '../../core/card/stamp-pdf.ts';
import { saveFile } from '../../browser/save-file.ts';

class MarkedFiles extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener('click', (event) => {
      const link = event.target instanceof Element ? event.target.closest('a') : null;
      if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      this.#save(link.href).catch(() => {
        this.#say('The file couldn’t be fetched. Try again when you are online.');
      });
    });
  }

  async #save(address: string): Promise<void> {
    const response = await fetch(address);
    if (!response.ok) throw new Error(`${response.status}`);
    const mark = printMarkAt(crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32);
    const file = address
      .split('/')
      .at(-1)!
      .replace('.pdf', `-${printMarkName(mark)}.pdf`);
    saveFile(file, [stampPdf(new Uint8Array(await response.arrayBuffer()), mark)], 'application/pdf');
    this.#say(`Saved as ${file}. Its cards bear the mark ${printMarkName(mark)}.`);
  }

  #say(text: string): void {
    this.querySelector('[role=status]')!.textContent = text;
  }
}

customElements.define('marked-files', MarkedFiles);
