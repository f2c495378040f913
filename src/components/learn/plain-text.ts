/** An explainer's words without their markup, one block a line; `figure` stands where a number is computed. */
export function plainText(body: string, figure: string): string {
  return body
    .replaceAll(/^import .*$/gm, '')
    .replaceAll(/<Ref [^>]*\/>/g, '')
    .replaceAll(/<(?:Myth said|Check question)="([^"]*)">/g, '\n$1\n')
    .replaceAll(/<Formula>.*<\/Formula>/g, '')
    .replaceAll(/<[^>]+>/g, '')
    .replaceAll(/\{[^{}]*(?:\{[^{}]*(?:\{[^{}]*\}[^{}]*)*\}[^{}]*)*\}/g, figure)
    .replaceAll(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replaceAll(/[*_`|]/g, ' ')
    .replaceAll(/^[#>\s]*(?:- |\d+\. )?/gm, '')
    .replaceAll(/ {2,}/g, ' ')
    .replaceAll(/\n{2,}/g, '\n')
    .trim();
}
