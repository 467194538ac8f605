"""The style of calculation sheets, on a screen and in print."""

STYLE = """
@page {
  margin: 0.6in 0.55in;
  @bottom-right {
    content: "page " counter(page) " of " counter(pages);
    font-size: 8pt;
    font-family: Arial, sans-serif;
  }
}
* { box-sizing: border-box; }
body { margin: 0; font: 9pt/1.3 "Liberation Sans", Arial, Helvetica, sans-serif; overflow-wrap: break-word;
  color: #111; background: #fff; }
article { max-width: 7.4in; margin: 0.3in auto; break-after: page; }
article:last-child { break-after: auto; }
header { border-bottom: 2pt solid #111; padding-bottom: 4pt; }
header p { margin: 0; font-size: 8.5pt; }
h1 { font-size: 15pt; line-height: 1.2; margin: 0; overflow-wrap: anywhere; }
h2 { font-size: 11pt; margin: 14pt 0 3pt; border-bottom: 0.75pt solid #111; break-after: avoid; }
h3 { font-size: 9.5pt; margin: 9pt 0 2pt; break-after: avoid; }
h3 small { font-weight: normal; }
p { margin: 3pt 0; }
.verdict { border: 1.5pt solid #111; padding: 4pt 7pt; margin: 6pt 0; }
.verdict strong { font-size: 12pt; }
.facts { columns: 2; column-gap: 14pt; margin: 3pt 0; }
.facts div { display: flex; gap: 6pt; border-bottom: 0.5pt dotted #999; break-inside: avoid; }
dt { flex: none; color: #333; }
dd { margin: 0 0 0 auto; text-align: right; overflow-wrap: anywhere; }
.sketches { display: flex; justify-content: space-around; break-inside: avoid; }
table { width: 100%; border-collapse: collapse; }
th { text-align: left; font-size: 8.5pt; border-bottom: 0.75pt solid #111; }
td, th { padding: 1.5pt 6pt 1.5pt 0; vertical-align: top; }
td { border-bottom: 0.5pt dotted #bbb; }
td:first-child { overflow-wrap: anywhere; }
tr { break-inside: avoid; }
tr:has(th) { break-after: avoid; }
.number { text-align: right; white-space: nowrap; }
.clause { font-size: 8pt; color: #333; text-align: right; padding-right: 0; }
.lines { table-layout: fixed; }
.lines .number { white-space: normal; }
.with { font-size: 8.8pt; }
.with span { display: inline-block; margin-right: 10pt; }
.how { font-size: 8.5pt; }
.lines div { margin: 0.5pt 0; }
.lines td { padding-top: 1pt; padding-bottom: 1pt; }
.why { font-size: 8pt; color: #333; }
.governs { font-weight: bold; }
ul { margin: 2pt 0; padding-left: 14pt; }
.lead { break-after: avoid; }
.whole, .end { break-inside: avoid; }
.two { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); column-gap: 14pt; }
@media screen and (max-width: 480px) {
  .two { display: block; }
  .facts { columns: 1; }
  dl.project { flex-wrap: wrap; }
  table:not(.lines) { display: block; overflow-x: auto; }
  .with, .lines div { overflow-x: auto; overflow-y: hidden; }
  .sign { grid-template-columns: 1fr; }
}
.sign { display: grid; grid-template-columns: repeat(3, 1fr); gap: 12pt; margin-top: 14pt; break-inside: avoid; }
.sign div { border-top: 0.75pt solid #111; padding-top: 2pt; font-size: 8.5pt; margin-top: 26pt; }
.small { font-size: 8pt; overflow-wrap: anywhere; }
math { font-family: "STIX Two Math", "Cambria Math", "Latin Modern Math", math; }
@media print { article { margin: 0; max-width: none; } }
svg { display: block; }
"""

DRAWING = """
svg.sketch .member { fill: #efefef; stroke: none; }
svg.sketch .edge { stroke: #111; stroke-width: 1.6; }
svg.sketch .open { stroke: #888; stroke-width: 0.8; stroke-dasharray: 5 4; }
svg.sketch .outline { fill: none; stroke: #555; stroke-width: 1.6; }
svg.sketch .surface { fill: #cfcfcf; stroke: none; }
svg.sketch .plate { fill: none; stroke: #333; stroke-width: 1; stroke-dasharray: 3 2; }
svg.sketch .attached { fill: #555; stroke: none; }
svg.sketch .dimension { stroke: #444; stroke-width: 0.7; }
svg.sketch .anchor { stroke: #111; stroke-width: 3; }
svg.sketch .push { stroke: #111; stroke-width: 1.8; fill: #111; }
svg.sketch polygon.push { stroke: none; }
svg.sketch circle { fill: #fff; stroke: #111; stroke-width: 1.4; }
svg.sketch circle.together { fill: #666; }
svg.sketch circle.unlike { fill: none; stroke: #666; stroke-dasharray: 2 1.5; }
svg.sketch text { font-size: 10px; fill: #111; text-anchor: middle; paint-order: stroke; stroke: #fff;
  stroke-width: 2.5px; stroke-opacity: 0.85; }
svg.sketch text.beside { text-anchor: start; }
"""
"""The style of a sketch, wherever it is shown."""
