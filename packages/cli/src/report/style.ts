/** The page's style: one column on a phone, front and chosen design side by side where there is room; light or dark as the reader's system. */
export const STYLE = `
:root { color-scheme: light dark; --ink: #1c2530; --quiet: #505c68; --line: #cfd6dc; --grid: #e6eaee; --paper: #fdfcf9; --card: #ffffff; --hole: #ffffff; --accent: #17406b; --on-accent: #ffffff; --warm: #f6ead0; --ply: #5d7085; --warn: #9a5b00; --warn-card: #fff8e8; --code: #f4f6f8;
  --tone0: #17406b; --tone1: #b07a12; --tone2: #1d7f79; --tone3: #8c2f52; --tone4: #5b4a9c; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8edf2; --quiet: #a9b4bf; --line: #39434d; --grid: #2a333b; --paper: #12171c; --card: #1a2127; --hole: #12171c; --accent: #8fbdea; --on-accent: #12171c; --warm: #4a4232; --ply: #93a7ba; --warn: #e0a54a; --warn-card: #2b2417; --code: #12171c;
  --tone0: #8fbdea; --tone1: #e7b95c; --tone2: #5cc7bf; --tone3: #ee93b5; --tone4: #b5a6f0; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, "Liberation Sans", Arial, sans-serif; font-variant-numeric: tabular-nums; }
header, main, footer { max-width: 1240px; margin: 0 auto; padding: 0 20px; }
header { padding-top: 28px; }
h1 { font-size: 1.7rem; line-height: 1.25; margin: 0 0 4px; overflow-wrap: anywhere; }
h2 { font-size: 1.2rem; margin: 0 0 12px; overflow-wrap: anywhere; }
h3 { font-size: 1rem; margin: 0 0 6px; overflow-wrap: anywhere; }
p { margin: 0 0 10px; overflow-wrap: anywhere; }
.lead, .note, figcaption { color: var(--quiet); }
.note, figcaption { font-size: 0.875rem; }
.answer { margin: 14px 0 0; padding-left: 1.1em; max-width: 62rem; }
.answer li:first-child { font-weight: 600; }
section { background: var(--card); border: 1px solid var(--line); border-radius: 6px; padding: 20px; margin: 20px 0; min-width: 0; scroll-margin-top: 8px; }
section.caution { border-left: 6px solid var(--warn); background: var(--warn-card); padding: 14px 20px; }
section.caution h2 { margin-bottom: 4px; font-size: 1rem; }
section.caution ul { margin: 0; padding-left: 1.2em; }
li { overflow-wrap: anywhere; }
.pair { display: grid; grid-template-columns: minmax(0, 1fr); gap: 20px; margin: 20px 0; }
.pair section { margin: 0; }
@media (min-width: 1000px) { .pair { grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr); } }
#front { position: relative; min-height: 300px; }
#front svg { display: block; max-width: 100%; }
svg text { font-size: 13px; fill: var(--ink); }
.grid { stroke: var(--grid); }
.axis { fill: none; stroke: var(--quiet); }
.allow { stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 6 4; }
.line { fill: none; stroke: var(--quiet); stroke-width: 1.6; }
.line.shown { stroke: var(--ink); }
.line-name { font-weight: 600; paint-order: stroke; stroke: var(--card); stroke-width: 4px; stroke-linejoin: round; }
.reference { fill: var(--ink); }
.sign { stroke-width: 1.5; }
${[0, 1, 2, 3, 4].map((i) => `.tone${i} { fill: var(--tone${i}); stroke: var(--tone${i}); }`).join('\n')}
.sign.fails { fill: var(--card); }
.sign.own { fill-opacity: 0.35; stroke-width: 1; stroke-opacity: 0.6; }
.point { outline: none; }
.aimed { cursor: pointer; }
.halo { fill: transparent; stroke: transparent; stroke-width: 2; }
.point.near .halo { stroke: var(--quiet); }
.point[aria-checked="true"] .halo { stroke: var(--ink); }
.point:focus-visible .halo { stroke: var(--accent); stroke-width: 4; }
.tip { position: absolute; pointer-events: none; max-width: 100%; background: var(--ink); color: var(--card); padding: 3px 8px; border-radius: 4px; font-size: 0.875rem; }
.tip[hidden] { display: none; }
.key { list-style: none; display: flex; flex-wrap: wrap; gap: 4px 20px; margin: 12px 0 0; padding: 0; font-size: 0.875rem; }
.key li { display: flex; align-items: center; gap: 6px; }
.key svg { flex: none; }
.overview { display: block; width: 100%; max-height: 170px; margin-bottom: 12px; }
.overview path, .overview rect, .section path { vector-effect: non-scaling-stroke; }
.frame { fill: none; stroke: var(--quiet); stroke-dasharray: 4 3; }
.filler { fill: var(--warm); stroke: var(--quiet); }
.layer { fill: var(--ply); stroke: var(--ply); stroke-opacity: 0.6; stroke-width: 0.6; }
.opening { fill: var(--hole); stroke: var(--quiet); stroke-width: 1; }
.channel { fill: var(--hole); stroke: var(--ink); stroke-width: 1.2; }
.edge-back { fill: none; stroke: var(--ink); stroke-width: 7; stroke-linejoin: round; }
.edge { stroke-width: 5; stroke-linecap: round; }
.beside { fill: none; stroke: var(--quiet); stroke-width: 1.5; stroke-dasharray: 5 4; }
.peak path { fill: none; stroke: var(--ink); stroke-width: 2; }
.peak .head { fill: var(--ink); stroke: none; }
.peak text { font-weight: 600; paint-order: stroke; stroke: var(--hole); stroke-width: 4px; stroke-linejoin: round; }
.failure circle { fill: var(--card); fill-opacity: 0.75; stroke: var(--ink); stroke-width: 1.8; }
.failure path { stroke: var(--ink); stroke-width: 1.8; }
.ruler { fill: none; stroke: var(--quiet); stroke-width: 1.2; }
.controls { display: flex; flex-wrap: wrap; gap: 8px 28px; align-items: center; margin-bottom: 14px; }
.cases { border: 0; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 4px 14px; align-items: baseline; min-width: 0; }
.cases legend { float: left; padding: 0 10px 0 0; color: var(--quiet); }
.cases label { display: inline-flex; gap: 5px; align-items: baseline; overflow-wrap: anywhere; }
select { font: inherit; max-width: 12em; }
.views { display: flex; flex-wrap: wrap; gap: 20px; }
figure { margin: 0; min-width: 0; }
.views svg { display: block; margin: 0 auto; background: var(--card); }
.views canvas { display: block; }
figcaption { margin-top: 6px; }
figcaption span, figcaption strong { display: block; overflow-wrap: anywhere; }
figcaption strong { color: var(--ink); }
.bar-frame { max-width: 560px; margin-top: 18px; }
.bar { height: 12px; border: 1px solid var(--ink); }
.marks { position: relative; height: 2.9em; font-size: 0.875rem; }
.mark { position: absolute; top: 0; padding-top: 5px; transform: translateX(-50%); white-space: nowrap; }
.mark::before { content: ""; position: absolute; left: 50%; top: 0; height: 5px; border-left: 1.5px solid var(--ink); }
.mark.lower { top: 0; padding-top: 21px; }
.mark.lower::before { height: 21px; }
.mark.from { transform: none; } .mark.from::before { left: 0; }
.mark.to { transform: translateX(-100%); } .mark.to::before { left: 100%; }
.scroll { overflow-x: auto; }
.scroll:focus-visible, summary:focus-visible, button:focus-visible, select:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
table { border-collapse: collapse; width: 100%; font-size: 0.9375rem; }
th, td { padding: 5px 10px 5px 0; text-align: right; border-bottom: 1px solid var(--line); font-weight: 400; vertical-align: top; }
td { white-space: nowrap; }
thead th { color: var(--quiet); font-size: 0.875rem; border-bottom-color: var(--quiet); vertical-align: bottom; }
th:first-child, td:first-child { text-align: left; }
tbody th { overflow-wrap: anywhere; min-width: 4.6em; }
.pair .wide { display: none; }
.words { white-space: normal; overflow-wrap: anywhere; min-width: 5em; }
.facts th:first-child { color: var(--quiet); overflow-wrap: break-word; }
.facts td { white-space: normal; }
.facts td:nth-child(4) { white-space: nowrap; }
.facts td:nth-child(2) { font-weight: 600; }
.facts thead th:nth-child(2) { color: var(--ink); }
#tables { display: grid; grid-template-columns: minmax(0, 1fr); gap: 24px 32px; }
@media (min-width: 1000px) { #tables { grid-template-columns: repeat(2, minmax(0, 1fr)); } }
@media (max-width: 600px) {
  .blocks thead { display: none; }
  .blocks tr { display: block; border-bottom: 1px solid var(--line); padding: 4px 0; }
  .blocks th, .blocks td { display: flex; justify-content: space-between; gap: 16px; border: 0; padding: 1px 0; white-space: normal; text-align: right; }
  .blocks tbody th { font-weight: 600; }
  .blocks td::before { content: attr(data-column); color: var(--quiet); text-align: left; }
  .wide { display: none; }
  .designs table { font-size: 0.875rem; }
  .designs th, .designs td { padding-right: 6px; }
  .designs td:first-child button { padding: 1px 6px; }
  .blocks th, .blocks td { overflow-wrap: anywhere; }
  .blocks th > *, .blocks td > * { min-width: 0; }
}
.rows th { color: var(--quiet); white-space: normal; width: 32%; }
.rows td { text-align: left; white-space: normal; overflow-wrap: anywhere; }
.rows table { table-layout: fixed; }
.rows details { margin-top: 12px; }
.designs { max-height: 420px; overflow-y: auto; }
.designs thead th { position: sticky; top: 0; background: var(--card); }
.designs tr.chosen { background: var(--warm); }
button { font: inherit; color: var(--accent); background: none; border: 1px solid var(--accent); border-radius: 4px; padding: 1px 10px; min-height: 26px; cursor: pointer; white-space: nowrap; }
button[aria-pressed="true"] { background: var(--accent); color: var(--on-accent); }
.save { margin: 14px 0 0; display: flex; flex-wrap: wrap; gap: 8px; align-items: center; color: var(--quiet); }
summary { cursor: pointer; color: var(--accent); }
pre { overflow-x: auto; background: var(--code); padding: 12px; border-radius: 4px; font-size: 0.875rem; }
footer { color: var(--quiet); font-size: 0.875rem; padding-bottom: 32px; }
.live { display: grid; grid-template-columns: minmax(0, 1fr); gap: 20px; }
@media (min-width: 1000px) { .live { grid-template-columns: minmax(0, 1.4fr) minmax(0, 1fr); } }
.live-picture { position: relative; }
.live-picture svg { display: block; max-width: none; }
.handles { position: absolute; left: 0; top: 0; overflow: visible; pointer-events: none; }
.handle { fill: var(--card); fill-opacity: 0.85; stroke: var(--accent); stroke-width: 2; cursor: grab; pointer-events: auto; touch-action: none; outline: none; }
.handle:hover, .handle:focus-visible { fill: var(--accent); }
.handle:focus-visible { stroke: var(--ink); stroke-width: 3; }
.slider { display: grid; grid-template-columns: 4.5em minmax(0, 1fr) 5.5em; gap: 10px; align-items: center; }
.slider input { accent-color: var(--accent); width: 100%; }
.slider output { text-align: right; }
.live-buttons { margin: 10px 0; display: flex; flex-wrap: wrap; gap: 8px; }
.live-buttons button { max-width: 100%; white-space: normal; }
@media (max-width: 480px) { header, main, footer { padding-left: 12px; padding-right: 12px; } section { padding: 14px; } }
@media print { section { break-inside: avoid; } .designs { max-height: none; } button, .controls { display: none; } }
`;
