/** Files that are dropped on the page or pasted into it. */

/**
 * @param zone lights up while a file hangs over the page
 * @param take gets the first file
 */
export function listenForFiles(zone: HTMLElement, take: (file: File) => void): void {
  const takeFrom = (transfer: DataTransfer | null, event: Event) => {
    const file = transfer?.files[0];
    if (!file) return;
    event.preventDefault();
    take(file);
  };
  const stop = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    zone.classList.toggle('over', event.type === 'dragover');
  };
  for (const type of ['dragover', 'dragleave'] as const) document.addEventListener(type, stop);
  document.addEventListener('drop', (event) => {
    zone.classList.remove('over');
    takeFrom(event.dataTransfer, event);
  });
  document.addEventListener('paste', (event) => takeFrom(event.clipboardData, event));
}
