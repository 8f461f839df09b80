/** How the hand-out looks: on A4, on a telephone, in grey. One weight of ink, no meaning in colour. */
import { FONT_STACK } from "../svg/glyphs";

export const STYLE = `
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:#000;font:15px/1.4 ${FONT_STACK}}
main{max-width:60rem;margin:0 auto;padding:1rem}
h1{font-size:1.6em;line-height:1.2;margin:0 0 .2em}
h2{font-size:1.08em;line-height:1.25;margin:0 0 .25em;padding-bottom:.1em;border-bottom:2px solid #000;break-after:avoid}
p{margin:.2em 0}
h1,h2,p,li,td,th,figcaption{overflow-wrap:anywhere}
ul,ol{margin:.2em 0;padding-left:1.25em}
li{margin:.12em 0;break-inside:avoid}
table{width:100%;border-collapse:collapse}
th,td{text-align:left;vertical-align:top;padding:.16em .45em .16em 0;border-bottom:1px solid #999;font-weight:normal}
thead th{font-size:.86em;color:#333;border-bottom-color:#000}
tr{break-inside:avoid}
thead{break-after:avoid}
.order tbody th{font-weight:bold;width:17%}
.order tbody{break-inside:avoid}
tbody th[scope=row]{font-weight:bold;white-space:nowrap}
table code,p code{overflow-wrap:anywhere}
code{font-family:Consolas,"Liberation Mono",monospace;font-size:.9em}
.n{display:inline-block;min-width:1.5em;padding:0 .25em;border:1.3px solid #000;border-radius:.8em;font-size:.8em;line-height:1.18;font-weight:bold;text-align:center;break-after:avoid}
.label{border:1px solid #000;padding:0 .25em;font-weight:bold;font-size:.86em;white-space:nowrap}
.gap{border:1.4px dashed #000;padding:0 .3em}
.kind,.small,.why,.chain,.more{color:#333}
.kind,.small,.why,.more{font-size:.9em}
.tick{display:inline-block;width:.85em;height:.85em;border:1.3px solid #000;flex:none;margin-top:.16em}
.ticks{list-style:none;padding:0}
.ticks li{display:flex;gap:.5em}
.fill{display:inline-block;min-width:9em;border-bottom:1px dotted #000;height:1em}
.fill.short{min-width:6em}.fill.tiny{min-width:2.2em}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.wrong{border:2px dashed #000;padding:.3em .6em}
.facts>span,.facts>b{white-space:normal}
.ways{display:grid;grid-template-columns:repeat(3,minmax(0,1fr));gap:.3em 1.2em;margin:.6em 0;padding:.5em 0;border-top:2px solid #000;border-bottom:2px solid #000}
.way{display:flex;gap:.45em;align-items:flex-start;min-width:0}
.way p{margin:0}
svg.verdict{flex:none}
svg.verdict .mark>*{fill:#fff;stroke:#000;stroke-width:1.8}
svg.verdict .mark.doubtful>*{fill:#c4c4c4}
svg.verdict .mark.fails>*{fill:#000}
svg.verdict .mark .sign{fill:none;stroke:#000}
svg.verdict .mark.fails .sign{stroke:#fff}
.cautions{border:2.4px solid #000;padding:.35em .6em;margin:.6em 0}
.cautions h2{border:0;display:inline;margin:0;padding:0}
.cautions h2::after{content:" "}
.cautions p{display:inline}
figure{margin:.6em 0}
figcaption{font-size:.9em;color:#333}
.drawing{overflow-x:auto}
.drawing svg{display:block;width:100%;height:auto}
.run h2{display:inline;border:0;padding:0;font-size:1em}
.run h2::after{content:":"}
.run p{display:inline}
.pair{display:grid;grid-template-columns:minmax(0,1.3fr) minmax(0,1fr);gap:0 2em}
.jobs ul{list-style:none;padding:0}
section.notes,.pair section{margin:0 0 .7em}
thead th{white-space:nowrap}
footer{font-size:.86em;color:#333;border-top:1px solid #000;margin-top:.4em;padding-top:.2em}
@media (max-width:600px){
  main{padding:.7rem}
  .pair{grid-template-columns:minmax(0,1fr)}
  .order thead,.order br{display:none}
  .order table,.order tbody,.order tr,.order td,.order th{display:block;width:auto}
  .order td,.order tbody th{border:0;padding:.05em 0}
  .order td+td{padding-left:1.4em}
  .order tr{border-bottom:1px solid #999;padding:.2em 0}
  .ways{grid-template-columns:1fr}
  .drawing svg{width:46rem;max-width:none}
}
@media print{
  @page{size:A4;margin:8mm}
  body{font-size:7.3pt;line-height:1.22}
  main{max-width:none;padding:0}
  figure{margin:1.2mm 0;break-inside:avoid}
  .ways,.cautions{margin:1.2mm 0;break-inside:avoid}
  .ways{padding:1.2mm 0;gap:1mm 4mm}
  .drawing{overflow:visible}
  .drawing svg{max-height:100mm}
  .pair{gap:0 6mm}
  section.notes,.pair section{margin:0 0 1.3mm}
  .bring,.jobs li,.risks,.thin,.assumed,.ask,.fallback{break-inside:avoid}
  h2{margin-bottom:.6mm}
  th,td{padding-top:.25mm;padding-bottom:.25mm}
}
`;
