/** How the hand-out looks: on A4, on a telephone, in grey. One weight of ink, no meaning in colour. */
import { FONT_STACK } from "../svg/glyphs";

export const STYLE = `
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:#000;font:15px/1.4 ${FONT_STACK}}
main{max-width:58rem;margin:0 auto;padding:1rem}
h1{font-size:1.6em;line-height:1.2;margin:0 0 .2em}
h2{font-size:1.08em;line-height:1.25;margin:0 0 .25em;padding-bottom:.1em;border-bottom:2px solid #000;break-after:avoid}
p{margin:.2em 0}
h1,h2,p,li,td,th,figcaption{overflow-wrap:anywhere}
ul,ol{margin:.2em 0;padding-left:1.25em}
li{margin:.12em 0;break-inside:avoid}
section{margin:0 0 .9em}
table{width:100%;border-collapse:collapse}
th,td{text-align:left;vertical-align:top;padding:.16em .6em .16em 0;border-bottom:1px solid #999;font-weight:normal}
th:last-child,td:last-child{padding-right:0}
thead th{font-size:.94em;color:#333;border-bottom-color:#000;white-space:nowrap}
tr{break-inside:avoid}
thead{break-after:avoid}
tbody th{font-weight:bold;white-space:nowrap}
.order tbody th{white-space:normal;width:13%}
code{font-family:Consolas,"Liberation Mono",monospace;font-size:.94em;overflow-wrap:anywhere}
.n{padding:0 .3em;border:1.2px solid #000;border-radius:.8em;font-size:.86em;font-weight:bold;white-space:nowrap}
.label{border:1px solid #000;padding:0 .2em;font-weight:bold;font-size:.9em;white-space:nowrap}
.gap{border:1.4px dashed #000;padding:0 .3em}
.kind,.more{color:#333}
.tick{display:inline-block;width:.85em;height:.85em;border:1.2px solid #000;flex:none;vertical-align:-.1em}
.ticks{list-style:none;padding:0;margin:0}
.ticks li{display:flex;gap:.5em}
.ticks .tick{margin-top:.22em}
.asked{break-after:avoid;margin-bottom:0}
.fill{display:inline-block;min-width:9em;border-bottom:1px solid #555;height:1em}
.fill.short{min-width:6em}.fill.tiny{min-width:2.6em}
.wrong{border:2px dashed #000;padding:.3em .6em}
.ways{margin:.6em 0;padding:.45em 0;border-top:2px solid #000;border-bottom:2px solid #000}
.ways ul{list-style:none;padding:0;margin:0;display:grid;grid-template-columns:repeat(3,minmax(0,1fr));gap:.2em 1.2em}
.way{display:flex;gap:.45em;align-items:flex-start;min-width:0;margin:0}
svg.verdict{flex:none;margin-top:.1em}
svg.verdict .mark>*{fill:#fff;stroke:#000;stroke-width:1.8}
svg.verdict .mark.doubtful>*{fill:#c4c4c4}
svg.verdict .mark.fails>*{fill:#000}
svg.verdict .mark .sign{fill:none;stroke:#000}
svg.verdict .mark.fails .sign{stroke:#fff}
.cautions{border:2.4px solid #000;padding:.35em .6em;margin:.6em 0}
.cautions h2,.run h2{display:inline;border:0;margin:0;padding:0}
.cautions p,.run p{display:inline}
figure{margin:.6em 0}
figcaption{color:#333}
.drawing{overflow-x:auto}
.drawing svg{display:block;width:100%;height:auto}
.run h2{font-size:1em}
.run h2::after{content:":"}
.cautions h2::after{content:"."}
.jobs ul{list-style:none;padding:0}
.jobs .fill{min-width:7em}
footer{color:#333;border-top:1px solid #000;margin-top:.4em;padding-top:.2em}
@media (max-width:600px){
  main{padding:.7rem}
  .order thead{display:none}
  .order table,.order tbody,.order tr,.order td,.order th{display:block;width:auto}
  .order td,.order tbody th{border:0;padding:.05em 0}
  .order tbody th{padding-top:.5em;width:auto}
  .order td+td{padding-left:1.6em}
  .order tr{border-bottom:1px solid #999;padding:.2em 0}
  .ways ul{grid-template-columns:1fr}
  .drawing svg{width:44rem;max-width:none}
  table .fill.tiny{min-width:1.6em}
}
@media print{
  @page{size:A4;margin:7mm 8mm}
  body{font-size:7.5pt;line-height:1.12}
  main{max-width:none;padding:0}
  h1{font-size:1.5em}
  p{margin:.1em 0}
  h2{margin-bottom:.4mm;padding-bottom:0;border-bottom-width:1.2px}
  figure{margin:.4mm 0;break-inside:avoid}
  .ways,.cautions{margin:.8mm 0;break-inside:avoid}
  .ways{padding:.8mm 0}
  .ways ul{gap:.3mm 3mm}
  .cautions{padding:.6mm 1.4mm}
  .drawing{overflow:visible}
  .drawing svg{width:79%;margin:0 auto;max-height:118mm}
  .plan{break-before:page;break-inside:avoid}
  .plan .drawing svg{max-height:none;margin:1mm auto 0}
  .columns{columns:2;column-gap:5mm;column-fill:balance}
  section{margin:0 0 .7mm}
  ul,ol{margin:0}
  li{margin:.04em 0}
  th,td{padding-top:.1mm;padding-bottom:.1mm}
  .run,.order tbody{break-inside:avoid}
  .fill{height:.9em}
}
`;
