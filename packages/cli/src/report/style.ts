/** The page's style: one column on a phone, front and chosen design side by side where there is room. */
export const STYLE = `
:root { --ink: #1c2530; --quiet: #505c68; --line: #cfd6dc; --paper: #fdfcf9; --card: #ffffff; --accent: #17406b; --warm: #f6ead0; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, "Liberation Sans", Arial, sans-serif; font-variant-numeric: tabular-nums; }
header, main, footer { max-width: 1240px; margin: 0 auto; padding: 0 20px; }
header { padding-top: 28px; }
h1 { font-size: 1.7rem; line-height: 1.25; margin: 0 0 4px; overflow-wrap: anywhere; }
h2 { font-size: 1.2rem; margin: 0 0 12px; }
h3 { font-size: 1rem; margin: 20px 0 6px; overflow-wrap: anywhere; }
p { margin: 0 0 10px; overflow-wrap: anywhere; }
.lead, .note, figcaption { color: var(--quiet); }
.note, figcaption { font-size: 0.875rem; }
section { background: var(--card); border: 1px solid var(--line); border-radius: 6px; padding: 20px; margin: 20px 0; min-width: 0; }
section.caution { border-left: 6px solid #9a5b00; background: #fff8e8; }
section.caution ul { margin: 0; padding-left: 1.2em; }
li { overflow-wrap: anywhere; }
.pair { display: grid; grid-template-columns: minmax(0, 1fr); gap: 20px; margin: 20px 0; }
.pair section { margin: 0; }
@media (min-width: 1000px) { .pair { grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr); align-items: start; } .pair > :first-child { position: sticky; top: 12px; } }
#front { position: relative; min-height: 300px; }
#front svg { display: block; max-width: 100%; }
#front text { font-size: 13px; fill: var(--ink); }
.grid { stroke: #e6eaee; }
.axis { fill: none; stroke: var(--quiet); }
.allow { stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 6 4; }
.reference { fill: var(--ink); }
.point { outline: none; }
.aimed { cursor: pointer; }
.halo { fill: transparent; stroke: transparent; stroke-width: 2; }
.point.near .halo { stroke: var(--quiet); }
.point[aria-checked="true"] .halo { stroke: var(--ink); }
.point:focus-visible .halo { stroke: var(--accent); stroke-width: 4; }
.tip { position: absolute; pointer-events: none; max-width: 100%; background: var(--ink); color: #ffffff; padding: 3px 8px; border-radius: 4px; font-size: 0.875rem; }
.tip[hidden] { display: none; }
.key { list-style: none; display: flex; flex-wrap: wrap; gap: 4px 20px; margin: 12px 0 0; padding: 0; font-size: 0.875rem; }
.key li { display: flex; align-items: center; gap: 6px; }
.key svg { flex: none; }
.figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(200px, 1fr)); gap: 16px; align-items: start; }
figure { margin: 0; min-width: 0; }
#design figure svg { display: block; width: 100%; height: 180px; }
.filler { fill: var(--warm); stroke: #7c8894; }
.channel { fill: #ffffff; stroke: var(--ink); stroke-width: 1.5; }
.edge-back { fill: none; stroke: var(--ink); stroke-width: 8; stroke-linejoin: round; }
.edge { stroke-width: 6; stroke-linecap: round; }
#design path { vector-effect: non-scaling-stroke; }
.ramp { display: flex; align-items: center; gap: 8px; }
.ramp .bar { flex: 1; height: 10px; border: 1px solid var(--ink); }
.facts { display: grid; grid-template-columns: repeat(auto-fill, minmax(150px, 1fr)); gap: 10px 16px; margin: 16px 0 0; }
.facts dt { color: var(--quiet); font-size: 0.875rem; }
.facts dd { margin: 0; font-weight: 600; overflow-wrap: anywhere; }
.scroll { overflow-x: auto; }
.scroll:focus-visible, summary:focus-visible, button:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
table { border-collapse: collapse; width: 100%; font-size: 0.9375rem; }
th, td { padding: 5px 10px 5px 0; text-align: right; border-bottom: 1px solid var(--line); white-space: nowrap; font-weight: 400; }
thead th { color: var(--quiet); font-size: 0.875rem; border-bottom-color: var(--quiet); }
th:first-child, td:first-child { text-align: left; }
.words { white-space: normal; min-width: 7.5em; }
.rows th { color: var(--quiet); vertical-align: top; white-space: normal; width: 32%; }
.rows td { text-align: left; white-space: normal; overflow-wrap: anywhere; }
.rows table { table-layout: fixed; }
.designs { max-height: 420px; overflow-y: auto; }
.designs thead th { position: sticky; top: 0; background: var(--card); }
button { font: inherit; color: var(--accent); background: none; border: 1px solid var(--accent); border-radius: 4px; padding: 1px 10px; min-height: 26px; cursor: pointer; }
button[aria-pressed="true"] { background: var(--accent); color: #ffffff; }
.picture svg { display: block; width: 100%; min-width: 680px; max-width: 900px; height: auto; margin: 0 auto; }
summary { cursor: pointer; color: var(--accent); }
pre { overflow-x: auto; background: #f4f6f8; padding: 12px; border-radius: 4px; font-size: 0.875rem; }
footer { color: var(--quiet); font-size: 0.875rem; padding-bottom: 32px; }
@media (max-width: 480px) { header, main, footer { padding-left: 12px; padding-right: 12px; } section { padding: 14px; } }
@media print { section { break-inside: avoid; } .designs { max-height: none; } button { display: none; } }
`;
