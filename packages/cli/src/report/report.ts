import type { HostShape } from '@lumenfront/core';
import { escapeMarkup } from '../markup.js';
import { frontAxisTitle, frontFigures, frontPicture, frontPlace, jointPicture, stressRamp } from '../picture/index.js';
import { shapePathData } from '../shape-path.js';
import { caution, timesText } from '../words/index.js';
import { frontChart } from './client/chart.js';
import { frontDrawing } from './client/drawing.js';
import { makeElement } from './client/element.js';
import { channelFigures } from './client/figures.js';
import { designPanel } from './client/panel.js';
import { type PageParts, startReport } from './client/start.js';
import { designTip } from './client/tip.js';
import type { PageData, ReportDesign, ReportRequest, Sign } from './data.js';
import { pickedJoint } from './picked-joint.js';
import { signsOf } from './signs.js';
import { STYLE } from './style.js';

/**
 * One HTML file that needs no network: what was asked, the chosen design in its joint, the front to click through, and how
 * far to trust it. Everything from the brief is escaped; the page's policy allows no script but its own. In a browser it is
 * made where the context is secure (https, localhost, a file), because only there the browser hashes.
 */
export async function reportPage(request: ReportRequest): Promise<string> {
  const { title, designs, axes, picked = 0 } = request;
  const signs = signsOf(designs.map(({ family }) => family));
  const data: PageData = {
    designs: designs.map((design) => ({
      ...design,
      place: frontPlace(design),
      caption: `${design.family}, ${frontFigures(design, axes)}`,
    })),
    picked,
    signs,
    axes:
      axes === undefined
        ? { x: 'channel area, mm²', y: 'peak edge stress, MPa' }
        : { x: frontAxisTitle(axes.x), y: frontAxisTitle(axes.y) },
    ramp: stressRamp(32),
    ...(request.reference === undefined
      ? {}
      : { reference: { ...request.reference, place: frontPlace(request.reference) } }),
    ...(request.allow === undefined || axes !== undefined ? {} : { limit: request.allow }),
    ...(request.shape === undefined ? {} : { room: roomOf(request.shape) }),
  };
  // By value, not by name: a bundler may have renamed them.
  const parts: PageParts = { makeElement, frontDrawing, designTip, frontChart, channelFigures, designPanel };
  const script = `(${startReport})({${Object.entries(parts).map(([name, part]) => `${name}: ${part}`)}})`;
  const policy = `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${await digest(script)}'`;

  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeMarkup(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(title)} – channel report</title>
<style>${STYLE}.bar { background: linear-gradient(to right, ${data.ramp.join(', ')}); }</style>
</head>
<body>
<header>
<h1>${escapeMarkup(title)}</h1>
<p class="lead">${designs.length === 1 ? 'One channel design' : `${designs.length} channel designs`}: ${axes === undefined ? 'area against peak stress at the edge' : `${axes.x.title} against ${axes.y.title}`}</p>
</header>
<main>
${cautions(request)}
<div class="pair">
<section aria-labelledby="front-heading">
<h2 id="front-heading">Front</h2>
<p class="note">Choose a design by click, or by the arrow keys. Right is larger, ${axes === undefined || axes.y.unit === 'MPa' ? 'down is less stressed' : 'up is stronger'}.</p>
<div id="front"></div>
<noscript>${await staticFront(request)}</noscript>
${chartKey(request, signs)}
</section>
<section id="chosen" aria-labelledby="design-heading">
<h2 id="design-heading">Chosen design</h2>
<div id="design"><p>${designs.length === 0 ? 'No design meets the brief.' : 'Without scripts, see the table of all designs.'}</p></div>
</section>
</div>
${await jointSection(request)}
${designTable(request)}
${rowsSection('Brief', request.brief, request.briefText)}
<section aria-labelledby="validation"><h2 id="validation">Validation</h2>
${request.validation.map((line) => `<p>${escapeMarkup(line)}</p>`).join('\n')}</section>
${rowsSection('Search', request.search)}
</main>
<footer><p>${Object.entries(request.versions)
    .map(([name, version]) => `${escapeMarkup(name)} ${escapeMarkup(version)}`)
    .join(' · ')}</p></footer>
<script type="application/json" id="report-data">${embed(data)}</script>
<script>${script}</script>
</body>
</html>
`;
}

/** SHA-256 in base64, as a policy names a script. */
async function digest(script: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(script));
  return btoa(String.fromCharCode(...new Uint8Array(bytes)));
}

/** The channel's surroundings as the page draws them: y points down on the screen. */
function roomOf({ room, roomBox, roomName }: HostShape): NonNullable<PageData['room']> {
  const { xMin, xMax, yMin, yMax } = roomBox;
  const margin = 0.01 * (xMax - xMin);
  const box = [xMin - margin, -yMax - margin, xMax - xMin + 2 * margin, yMax - yMin + 2 * margin];
  return {
    name: roomName,
    path: shapePathData(
      room,
      ([x, y]) => `${x} ${-y}`,
      (mm) => mm,
    ),
    box: box.join(' '),
  };
}

/** For a reader without scripts. */
function staticFront({ title, designs, reference, allow, axes, picked = 0 }: ReportRequest): Promise<string> {
  const chosen = designs[picked];
  return frontPicture({
    title,
    designs,
    ...(reference === undefined ? {} : { reference }),
    ...(allow === undefined ? {} : { allow }),
    ...(axes === undefined ? {} : { axes }),
    ...(chosen === undefined ? {} : { picked: chosen }),
  });
}

/** JSON of seven digits a number, that neither ends the script element nor starts a comment in it. */
function embed(data: PageData): string {
  const short = (_: string, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(7)) : value);
  return JSON.stringify(data, short).replace(/</g, '\\u003c');
}

function cautions({ cautions: lines }: ReportRequest): string {
  const items = [caution, ...lines].map((line) => `<li>${escapeMarkup(line)}</li>`).join('');
  return `<section class="caution" aria-labelledby="caution"><h2 id="caution">Before you use these figures</h2><ul>${items}</ul></section>`;
}

function chartKey({ reference, allow, axes }: ReportRequest, signs: Readonly<Record<string, Sign>>): string {
  const icon = (content: string) =>
    `<svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">${content}</svg>`;
  const entries = Object.entries(signs).map(
    ([family, { path, fill, stroke }]) =>
      `${icon(`<path d="${path}" fill="${fill}" stroke="${stroke}" stroke-width="1.5"/>`)}${escapeMarkup(family)}`,
  );
  if (reference !== undefined)
    entries.push(
      `${icon('<path class="reference" d="M-7-2.5h4.5v-4.5h5v4.5h4.5v5h-4.5v4.5h-5v-4.5h-4.5Z"/>')}reference, ${escapeMarkup(frontFigures(reference, axes))}`,
    );
  if (allow !== undefined && axes === undefined)
    entries.push(`${icon('<path class="allow" d="M-9 0H9"/>')}allowed peak, ${Number(allow.toFixed(1))} MPa`);
  return `<ul class="key">${entries.map((entry) => `<li>${entry}</li>`).join('')}</ul>`;
}

async function jointSection(request: ReportRequest): Promise<string> {
  const joint = pickedJoint(request);
  if (joint === undefined) return '';
  const picture = await jointPicture(joint);
  return `<section aria-labelledby="joint"><h2 id="joint">In the joint</h2>
<div class="picture scroll" tabindex="0" role="region" aria-label="picture of the joint">${picture}</div></section>`;
}

function designTable({ designs, reference }: ReportRequest): string {
  const withStrength = designs.some(({ strength }) => strength !== undefined);
  const strengthCells = ({ strength }: ReportDesign) =>
    `<td>${strength === undefined ? '–' : (100 * strength.retained).toFixed(1)}</td><td class="words">${escapeMarkup(strength?.startsAt ?? '–')}</td>`;
  const flowOf = reference?.conductance;
  const flowCell = ({ conductance }: ReportDesign) =>
    flowOf === undefined ? '' : `<td>${timesText(conductance / flowOf)}</td>`;
  const rows = designs.map((design, i) => {
    const { family, area, peak, wall, minEdgeRadius } = design;
    return `<tr><td><button type="button" data-design="${i}" aria-pressed="false">show ${i + 1}</button></td><td>${escapeMarkup(family)}</td><td>${area.toPrecision(4)}</td>${flowCell(design)}<td>${peak.toFixed(1)}</td><td>${wall?.toFixed(3) ?? '–'}</td><td>${minEdgeRadius.toFixed(3)}</td>${withStrength ? strengthCells(design) : ''}</tr>`;
  });
  return `<section aria-labelledby="designs"><h2 id="designs">All designs</h2>
<div class="scroll designs" tabindex="0" role="region" aria-label="table of all designs"><table>
<thead><tr><th scope="col">design</th><th scope="col">family</th><th scope="col">area, mm²</th>${flowOf === undefined ? '' : '<th scope="col">flow / reference</th>'}<th scope="col">peak, MPa</th><th scope="col">wall, mm</th><th scope="col">edge radius, mm</th>${withStrength ? '<th scope="col">retained, %</th><th scope="col">failure starts</th>' : ''}</tr></thead>
<tbody>${rows.join('')}</tbody></table></div></section>`;
}

function rowsSection(heading: string, rows: ReportRequest['brief'], source?: string): string {
  const id = heading.toLowerCase();
  const body = rows
    .map(([label, value]) => `<tr><th scope="row">${escapeMarkup(label)}</th><td>${escapeMarkup(value)}</td></tr>`)
    .join('');
  const details =
    source === undefined
      ? ''
      : `<details><summary>The brief as written</summary><pre tabindex="0">${escapeMarkup(source)}</pre></details>`;
  return `<section class="rows" aria-labelledby="${id}"><h2 id="${id}">${heading}</h2><table><tbody>${body}</tbody></table>${details}</section>`;
}
