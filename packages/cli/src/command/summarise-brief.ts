import { estimateEffort, hostOf, loadsOf, type ResolvedBrief } from '@lumenfront/core';
import { choicesRow } from './choices-text.js';
import { describeMaterials } from './materials-text.js';

const number = (value: number) => String(Number(value.toPrecision(6)));

/** What a brief comes to once defaults are filled in, in a few lines for people. */
export function summariseBrief(brief: ResolvedBrief): string {
  const rows = [...briefRows(brief), ...effortRow(brief)];
  const width = Math.max(...rows.map(([label]) => label.length));
  return `${rows.map(([label, text]) => `${label.padEnd(width)}  ${text}`).join('\n')}\n`;
}

/** The same as labels and values. */
export function briefRows(brief: ResolvedBrief): [label: string, text: string][] {
  const { joint, materials, cases, channel, allow, search } = brief;
  const lines: [string, string][] = [['brief', brief.title], ...choicesRow(brief)];
  for (const [label, text] of hostOf(joint).summary) lines.push([label, text]);
  lines.push(['materials', describeMaterials(materials)]);
  lines.push(
    ['loads', describeLoads(brief)],
    ...cases.map(({ name, factors }): [string, string] => [`case ${name}`, describeFactors(factors)]),
    ...pairRow(brief),
    ['families', channel.families.join(', ') + (channel.mirror ? ', mirror-symmetric' : '')],
    ['limits', `wall ${number(channel.wall)} mm, edge radius ${number(channel.edgeRadius)} mm`],
    [
      'reference',
      `ellipse ${number(channel.reference.width)} x ${number(channel.reference.height)} mm at [${channel.reference.at.map(number).join(', ')}]`,
    ],
    ['allow', `${number(allow)} MPa`],
    ['search', `seed ${search.seed}, ${search.evaluations} evaluations`],
  );
  return lines;
}

/** What the joint takes, before it is spent. */
function effortRow(brief: ResolvedBrief): [label: string, text: string][] {
  const effort = estimateEffort(brief);
  if (effort === undefined) return [];
  const [least, most] = effort.reduction.map(Math.ceil);
  const seconds = least === most ? `${least} s` : `${least} to ${most} s`;
  return [
    [
      'effort',
      `about ${seconds} and at most ${(effort.memory / 1000).toFixed(1)} GB for the joint, once; ${Math.ceil(effort.check)} s for each channel that is checked by mesh`,
    ],
  ];
}

function pairRow({ channel: { group, row } }: ResolvedBrief): [string, string][] {
  if (row !== undefined)
    return [['channels', `an endless row, ${number(row.pitch)} mm from middle to middle; what follows is of each`]];
  if (group === undefined) return [];
  return [
    [
      'channels',
      `${group.number === 2 ? 'two, mirror images of each other' : `${group.number}, neighbours mirror images of each other`}, ${group.pitch === undefined ? 'as far apart as the search finds' : `${number(group.pitch)} mm from middle to middle`}`,
    ],
  ];
}

function describeLoads({ joint, loads }: ResolvedBrief): string {
  const known = loadsOf(joint);
  return Object.entries(loads)
    .map(([name, load]) => {
      const units = known.find((one) => one.name === name)?.sizes;
      const sizes = Object.entries(load).map(([key, size]) => `${key} ${number(size)}${unitOf(units?.[key]?.unit)}`);
      return `${name} (${sizes.join(', ')})`;
    })
    .join(', ');
}

const unitOf = (unit: string | undefined) => (unit === undefined || unit === '1' ? '' : ` ${unit}`);

function describeFactors(factors: ResolvedBrief['cases'][number]['factors']): string {
  return Object.entries(factors)
    .map(([name, factor]) => `${number(factor)} x ${name}`)
    .join(' + ');
}
