import type { ResolvedBrief } from '@lumenfront/core';

const number = (value: number) => String(Number(value.toPrecision(6)));

/** What a brief comes to once defaults are filled in, in a few lines for people. */
export function summariseBrief(brief: ResolvedBrief): string {
  const rows = briefRows(brief);
  const width = Math.max(...rows.map(([label]) => label.length));
  return `${rows.map(([label, text]) => `${label.padEnd(width)}  ${text}`).join('\n')}\n`;
}

/** The same as labels and values. */
export function briefRows(brief: ResolvedBrief): [label: string, text: string][] {
  const { joint, materials, loads, cases, channel, allow, search } = brief;
  const lines: [string, string][] = [['brief', brief.title]];
  if (joint.kind === 'tee') {
    const thickness = joint.overlaminate.reduce((sum, layer) => sum + layer.thickness, 0);
    const skin = joint.skin.reduce((sum, layer) => sum + layer.thickness, 0);
    lines.push(
      ['joint', `tee, bend radius ${number(joint.bendRadius)} mm, ${joint.support} ends`],
      ['overlaminate', `${number(thickness)} mm, [${joint.overlaminate.map((layer) => layer.angle).join(', ')}]`],
      [
        'skin',
        `${number(skin)} mm, [${joint.skin.map((layer) => layer.angle).join(', ')}], half span ${number(joint.skinHalfSpan)} mm`,
      ],
      ['web, foot', `${number(joint.webHeight)} mm, ${number(joint.footLength)} mm`],
    );
  } else lines.push(['joint', 'plate, an infinite sheet']);
  lines.push(['materials', materials.map(describeMaterial).join('; ')]);
  lines.push(
    ['loads', describeLoads(loads)],
    ...cases.map(({ name, factors }): [string, string] => [`case ${name}`, describeFactors(factors)]),
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

const sources = {
  own: 'own values',
  'built-in': 'built-in, typical',
  default: 'built-in, typical; none is named there',
};

function describeMaterial({ name, at, source }: ResolvedBrief['materials'][number]): string {
  const places = at.map((place) => place.replace(/^host\.?/, '') || 'plate');
  return `${name} in ${places.join(', ')} (${sources[source]})`;
}

const loadUnits: Readonly<Record<string, string>> = {
  force: 'N/mm',
  moment: 'N mm/mm',
  deltaT: 'K',
  pressure: 'MPa',
  sx: 'MPa',
  sy: 'MPa',
  txy: 'MPa',
};

function describeLoads(loads: ResolvedBrief['loads']): string {
  return Object.entries(loads)
    .map(([name, load]) => {
      const sizes = Object.entries(load as Record<string, number>);
      return `${name} (${sizes.map(([key, size]) => `${key} ${number(size)} ${loadUnits[key]}`).join(', ')})`;
    })
    .join(', ');
}

function describeFactors(factors: ResolvedBrief['cases'][number]['factors']): string {
  return Object.entries(factors)
    .map(([name, factor]) => `${number(factor)} x ${name}`)
    .join(' + ');
}
