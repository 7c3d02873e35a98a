import { caution } from '../caution.js';
import { escapeMarkup } from '../markup.js';
import { frontFigures, frontPicture } from '../picture/index.js';
import { timesText } from '../words/index.js';
import { frontChart } from './client/chart.js';
import { frontDrawing } from './client/drawing.js';
import { makeElement } from './client/element.js';
import { channelFacts } from './client/facts.js';
import { fieldDrawing } from './client/field.js';
import { fieldsShown } from './client/fields.js';
import { fitWidth } from './client/fit-width.js';
import { jointShown } from './client/joint.js';
import { frontLines } from './client/lines.js';
import { aroundChannels, frameAround, peakArrow } from './client/marks.js';
import { readPage } from './client/read-page.js';
import { saveFiles } from './client/save.js';
import { overviewDrawing, sectionDrawing } from './client/section.js';
import { type PageParts, startReport } from './client/start.js';
import { stressBar } from './client/stress-bar.js';
import { channelTables, tableMaker } from './client/tables.js';
import { designTip } from './client/tip.js';
import { unpackBytes } from './client/unpack-bytes.js';
import { numberOf, type PageData, type ReportChannel, type ReportRequest, type Sign } from './data.js';
import type { LiveData } from './live/live-data.js';
import { packBytes } from './pack-bytes.js';
import { packPage } from './packed-page.js';
import { pageData } from './page-data.js';
import { STYLE } from './style.js';

/** By value, not by name: a bundler may have renamed them. */
const parts: PageParts = {
  readPage,
  unpackBytes,
  makeElement,
  fitWidth,
  frontDrawing,
  frontLines,
  designTip,
  frontChart,
  tableMaker,
  channelFacts,
  channelTables,
  overviewDrawing,
  sectionDrawing,
  peakArrow,
  aroundChannels,
  frameAround,
  jointShown,
  stressBar,
  fieldDrawing,
  fieldsShown,
  saveFiles,
};

/**
 * One HTML file that needs no network: what was asked and found, the front to click through, the chosen design in its joint beside another, and how
 * far to trust it. Everything from the brief is escaped; the page's policy allows no script but its own. In a browser it is
 * made where the context is secure (https, localhost, a file), because only there the browser hashes.
 */
export async function reportPage(request: ReportRequest): Promise<string> {
  const { title, designs, axes, answer = [] } = request;
  const data = pageData(request);
  const script = `(${startReport})({${Object.entries(parts).map(([name, part]) => `${name}: ${part}`)}})`;
  const live = designs.length === 0 ? undefined : request.live;
  const scripts = [script, ...(live === undefined ? [] : [live.script])];
  const hashes = await Promise.all(scripts.map(async (text) => `'sha256-${await digest(text)}'`));
  const policy = `default-src 'none'; style-src 'unsafe-inline'; script-src ${hashes.join(' ')}`;

  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeMarkup(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeMarkup(title)} – channel report</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>${escapeMarkup(title)}</h1>
<p class="lead">${escapeMarkup(leadOf(request))}</p>
${answer.length === 0 ? '' : `<ul class="answer">${answer.map((line) => `<li>${escapeMarkup(line)}</li>`).join('')}</ul>`}
</header>
<main>
${cautions(request)}
<div class="pair">
${data.front ? await frontSection(request, data) : designTable(request, 'What each family reaches')}
<section id="chosen" aria-labelledby="design-heading">
<h2 id="design-heading">Chosen design</h2>
<div id="design"><p>${designs.length === 0 ? 'No design meets the brief.' : `${withoutScripts} see the table of all designs.`}</p></div>
</section>
</div>
${designs.length === 0 ? '' : pictures(request, data)}
${live === undefined ? '' : liveSection(live.data)}
${request.choices === undefined ? '' : choicesSection(request.choices)}
${data.front ? designTable(request, 'All designs') : ''}
${rowsSection('Brief', request.brief, folded('The brief as written', request.briefText && `<pre tabindex="0">${escapeMarkup(request.briefText)}</pre>`))}
<section aria-labelledby="validation"><h2 id="validation">Validation</h2>
${request.validation.map((line) => `<p>${escapeMarkup(line)}</p>`).join('\n')}</section>
${rowsSection('Search', request.search, folded('How each run of the search ended', request.runs?.length && `<p>${escapeMarkup(request.runs.join('; '))}.</p>`))}
</main>
<footer><p>${Object.entries(request.versions)
    .map(([name, version]) => `${escapeMarkup(name)} ${escapeMarkup(version)}`)
    .join(' · ')}</p></footer>
<script type="text/plain" id="report-data">${await packBytes(JSON.stringify(packPage(data), short))}</script>
<script>${script}</script>${live === undefined ? '' : await liveScripts(live)}
</body>
</html>
`;

  function leadOf({ kind = 'front', allow, all = designs.length }: ReportRequest): string {
    if (kind === 'pick')
      return `The largest channel${allow === undefined ? '' : ` within ${Number(allow.toFixed(2))} MPa`}, and the largest of the other families`;
    const traded =
      axes === undefined ? 'area against peak stress at the edge' : `${axes.x.title} against ${axes.y.title}`;
    const shown = all > designs.length ? `${designs.length} of ${all}` : String(all);
    return `${all === 1 ? 'One channel design' : `${shown} channel designs`}: ${traded}`;
  }
}

/** Scripts replace what this begins: it stays where they cannot unpack the data of the page. */
const withoutScripts = 'Without scripts, or in a browser from before 2023 (it must know DecompressionStream),';

/** SHA-256 in base64, as a policy names a script. */
async function digest(script: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(script));
  return btoa(String.fromCharCode(...new Uint8Array(bytes)));
}

/** A third of what they are as they stand; `startReport` unpacks and starts the script, which unpacks the others. */
async function liveScripts({ script, data }: NonNullable<ReportRequest['live']>): Promise<string> {
  const { model, ...rest } = data;
  const packed = { model, data: JSON.stringify(rest), script };
  const texts = Object.entries(packed).map(
    async ([name, content]) => `\n<script type="text/plain" id="live-${name}">${await packBytes(content)}</script>`,
  );
  return (await Promise.all(texts)).join('');
}

/** Seven digits a number. */
const short = (_: string, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(7)) : value);

function liveSection({ strength }: LiveData): string {
  const told =
    strength === undefined
      ? ''
      : ` Strength is told by the ${strength.points} of ${strength.of} points of the joint that can fail first: around ${strength.outlines} outlines changed in this way, within ${(100 * strength.difference).toPrecision(1)} % of what all points tell.`;
  return `<section aria-labelledby="live-heading"><h2 id="live-heading">Change the outline</h2>
<p class="note">Drag a handle, or reach it by the tab key and move it by the arrow keys (with the shift key further). Stress, area, flow and strength follow.${told} Have the saved channel checked by the command before you use it.</p>
<div id="live"><p>${withoutScripts} nothing can be changed here.</p></div></section>`;
}

/** The choices of a brief side by side, with the numbers that their lines bear in the chart. */
function choicesSection({ table, lines }: NonNullable<ReportRequest['choices']>): string {
  const head = table.columns.map((text) => `<th scope="col">${escapeMarkup(text)}</th>`).join('');
  const rows = table.rows.map(
    ([first, ...cells], c) =>
      `<tr${lines[c]?.shown ? ' class="chosen"' : ''}><th scope="row">${escapeMarkup(String(first))}${lines[c]?.shown ? ', shown here' : ''}</th>${cells.map((cell) => `<td>${escapeMarkup(String(cell))}</td>`).join('')}</tr>`,
  );
  return `<section aria-labelledby="choices"><h2 id="choices">${escapeMarkup(table.heading)}</h2>
<div class="scroll" tabindex="0" role="region" aria-label="table of choices"><table><thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table></div>
<p class="note">${escapeMarkup(table.note ?? '')} Pictures, tables and what can be changed by hand are of the choice that is shown here: every choice has a section, and a reduced model, of its own.</p></section>`;
}

function cautions({ cautions: lines }: ReportRequest): string {
  const items = [caution, ...lines].map((line) => `<li>${escapeMarkup(line)}</li>`).join('');
  return `<section class="caution" aria-labelledby="caution"><h2 id="caution">Before you use these figures</h2><ul>${items}</ul></section>`;
}

async function frontSection(request: ReportRequest, { signs }: PageData): Promise<string> {
  const { axes } = request;
  const hint = axes === undefined || axes.y.unit === 'MPa' ? 'down is less stressed' : 'up is stronger';
  return `<section aria-labelledby="front-heading">
<h2 id="front-heading">Front</h2>
<p class="note">Choose a design by click, or by the arrow keys. Right is larger, ${hint}.</p>
<div id="front"></div>
<noscript>${await staticFront(request)}</noscript>
${chartKey(request, signs)}
</section>`;
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

const REFERENCE = 'M-7-2.5h4.5v-4.5h5v4.5h4.5v5h-4.5v4.5h-5v-4.5h-4.5Z';

function chartKey(request: ReportRequest, signs: Readonly<Record<string, Sign>>): string {
  const { reference, allow, axes, designs, families = {}, choices } = request;
  const icon = (content: string) =>
    `<svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">${content}</svg>`;
  const entries = Object.entries(signs).map(
    ([family, { path, tone }]) => `${icon(`<path class="sign tone${tone}" d="${path}"/>`)}${escapeMarkup(family)}`,
  );
  for (const [c, { name, shown }] of (choices?.lines ?? []).entries())
    entries.push(`${c + 1}: ${escapeMarkup(name)}${shown ? ' (solid line, its designs as points)' : ''}`);
  const first = Object.values(signs)[0];
  if (Object.keys(families).length > 0 && first !== undefined)
    entries.push(
      `${icon(`<path class="sign own tone${first.tone}" d="${first.path}" transform="scale(0.62)"/>`)}small: a family by itself`,
    );
  if (first !== undefined && designs.some(failsAsLoaded))
    entries.push(
      `${icon(`<path class="sign fails tone${first.tone}" d="${first.path}"/>`)}hollow: fails below the loads as given`,
    );
  if (reference !== undefined)
    entries.push(
      `${icon(`<path class="reference" d="${REFERENCE}"/>`)}reference, ${escapeMarkup(frontFigures(reference, axes))}${failsAsLoaded(reference) ? ', fails below the loads as given' : ''}`,
    );
  if (allow !== undefined && axes === undefined)
    entries.push(`${icon('<path class="allow" d="M-9 0H9"/>')}allowed peak, ${Number(allow.toFixed(1))} MPa`);
  return `<ul class="key">${entries.map((entry) => `<li>${entry}</li>`).join('')}</ul>`;
}

const failsAsLoaded = ({ strength }: ReportChannel) => strength !== undefined && strength.loadFactor < 1;

/** The chosen channel in the joint, the stress around it, its tables: filled by the page's script. */
function pictures({ designs, reference }: ReportRequest, { cases, fields }: PageData): string {
  const choice = (value: string, text: string, checked: boolean) =>
    `<label><input type="radio" name="case" value="${escapeMarkup(value)}"${checked ? ' checked' : ''}><span>${escapeMarkup(text)}</span></label>`;
  const option = (name: string, selected: boolean) =>
    `<option value="${name}"${selected ? ' selected' : ''}>${name}</option>`;
  const others = [
    option('', false).replace('></', '>nothing</'),
    ...(reference === undefined ? [] : [option('reference', true)]),
    ...designs.map((design, i) => option(`design ${numberOf(design, i)}`, false)),
  ];
  const field =
    fields === undefined
      ? ''
      : `<section aria-labelledby="field"><h2 id="field">Stress in the filler, by the independent mesh</h2>
<div class="controls"><label>stress <select id="field-stress"><option value="largest">largest principal stress</option><option value="least">least principal stress</option><option value="shear">largest shear stress</option></select></label></div>
<div id="field-figures" class="views"></div>
<p class="note">In the plane of the section, in the colours above: the largest principal stress opens a crack across itself, the least presses where it is below zero, the largest shear is half of what the two differ by. At the tips of the filler, where stress is singular, it says no more than the mesh resolves.</p></section>`;
  return `<section aria-labelledby="joint"><h2 id="joint">In the joint</h2>
<div class="controls">
<fieldset class="cases"><legend>case</legend>${choice('', 'the one that rules', true)}${cases.map((name) => choice(name, name, false)).join('')}</fieldset>
<label>beside it <select id="beside">${others.join('')}</select></label>
</div>
<div id="joint-figures" class="views"></div>
<div id="bar"></div></section>
${field}
<section aria-labelledby="tables-heading"><h2 id="tables-heading">Case by case</h2><div id="tables"></div></section>`;
}

function designTable({ designs, reference }: ReportRequest, heading: string): string {
  const withStrength = designs.some(({ strength }) => strength !== undefined);
  const strengthCells = (design: ReportChannel) =>
    `<td>${design.strength === undefined ? '–' : `${(100 * design.strength.retained).toFixed(1)}${failsAsLoaded(design) ? ' !' : ''}`}</td><td class="words wide">${escapeMarkup(design.strength?.startsAt ?? '–')}</td>`;
  const flowOf = reference?.conductance;
  const flowCell = ({ conductance }: ReportChannel) =>
    flowOf === undefined ? '' : `<td class="wide">${timesText(conductance / flowOf)}</td>`;
  const cells = (design: ReportChannel) => {
    const { family, area, peak, wall, minEdgeRadius } = design;
    return `<td class="words">${escapeMarkup(family)}</td><td>${area.toPrecision(4)}</td>${flowCell(design)}<td>${peak.toFixed(1)}</td><td class="wide">${wall?.toFixed(3) ?? '–'}</td><td class="wide">${minEdgeRadius.toFixed(3)}</td>${withStrength ? strengthCells(design) : ''}`;
  };
  const rows = designs.map(
    (design, i) =>
      `<tr><td><button type="button" data-design="${i}" aria-pressed="false">show ${numberOf(design, i)}</button></td>${cells(design)}</tr>`,
  );
  if (reference !== undefined) rows.push(`<tr><td>reference</td>${cells(reference)}</tr>`);
  const head = (text: string, attributes = '') => `<th scope="col"${attributes}>${text}</th>`;
  const note =
    designs.some(failsAsLoaded) || (reference !== undefined && failsAsLoaded(reference))
      ? '<p class="note">!: the joint fails below the loads as given.</p>'
      : '';
  return `<section aria-labelledby="designs"><h2 id="designs">${heading}</h2>
<div class="scroll designs" tabindex="0" role="region" aria-label="table of all designs"><table>
<thead><tr>${head('design')}${head('family')}${head('area, mm²')}${flowOf === undefined ? '' : head('flow / reference', ' class="wide"')}${head('peak, MPa')}${head('wall, mm', ' class="wide"')}${head('edge radius, mm', ' class="wide"')}${withStrength ? head('retained, %') + head('failure starts', ' class="wide"') : ''}</tr></thead>
<tbody>${rows.join('')}</tbody></table></div>${note}</section>`;
}

function rowsSection(heading: string, rows: ReportRequest['brief'], more: string): string {
  const id = heading.toLowerCase();
  const body = rows
    .map(([label, value]) => `<tr><th scope="row">${escapeMarkup(label)}</th><td>${escapeMarkup(value)}</td></tr>`)
    .join('');
  return `<section class="rows" aria-labelledby="${id}"><h2 id="${id}">${heading}</h2><table><tbody>${body}</tbody></table>${more}</section>`;
}

/** A part that opens when it is asked for; none without content. */
function folded(summary: string, content: string | number | undefined): string {
  return content ? `<details><summary>${summary}</summary>${content}</details>` : '';
}
