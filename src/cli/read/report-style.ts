/** How the report looks, on a screen and on paper: ink on paper, hairlines, no colour that means anything. */
export const REPORT_STYLE = `
body { max-width: 60rem; margin: 2rem auto; padding: 0 1rem; color: #23201b; background: #fffdf8;
  font: 1rem/1.45 'Source Serif 4', Georgia, 'Liberation Serif', serif; font-variant-numeric: lining-nums; }
h1, h2 { line-height: 1.2; font-weight: 600; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums lining-nums; }
caption { padding: 0.5rem 0; text-align: left; font-style: italic; }
th, td { padding: 0.3rem 0.6rem 0.3rem 0; text-align: left; vertical-align: top; border-top: 1px solid #cfc8b8; font-weight: 400; }
thead th { border: 0; font-weight: 600; }
th a { overflow-wrap: anywhere; }
a { color: inherit; }
small, .path { color: #5c564a; }
td small { white-space: nowrap; }
.path { margin-top: -0.6rem; overflow-wrap: anywhere; font-size: 0.9rem; }
section { margin-top: 2rem; padding-top: 0.5rem; border-top: 1px solid #23201b; break-inside: avoid; }
.beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); gap: 1.5rem; }
figure { position: relative; margin: 0; align-self: start; }
figure img, figure svg { display: block; width: 100%; }
figure svg { position: absolute; inset: 0; height: 100%; }
polygon { fill: none; stroke: #23201b; stroke-width: 0.5; paint-order: stroke; }
circle { fill: #fffdf8; stroke: #23201b; stroke-width: 0.3; }
svg text { font-size: 4.4px; text-anchor: middle; fill: #23201b; }
dl { margin: 0; }
dl div { padding: 0.4rem 0; border-top: 1px solid #cfc8b8; }
dt { font-style: italic; }
dd { margin: 0; }
dd b { display: block; font-size: 1.3rem; font-weight: 600; }
@page { margin: 15mm; }
@media print {
  body { max-width: none; margin: 0; padding: 0; background: none; font-size: 10pt; }
  .beside { grid-template-columns: 1fr 1fr; }
  tr { break-inside: avoid; }
}
`;
