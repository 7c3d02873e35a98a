import type { CheckDocument } from '@lumenfront/core';
import { caution } from '../caution.js';
import { formatTable, type TableColumn } from '../show/index.js';
import { knownEdgeText } from '../words/index.js';
import { crackText } from './crack-text.js';
import { materialsLine } from './materials-text.js';
import { strengthText } from './strength-text.js';
import type { Terminal } from './terminal.js';

/** Without the sign of what rounds to nothing. */
const millimetres = (value: number) => (Number(value.toFixed(3)) + 0).toFixed(3);
const percent = (share: number) => `${(100 * share).toFixed(2)}`;

/** What several channels are together. */
function groupLine({ pair, group, row }: CheckDocument): string[] {
  if (row !== undefined)
    return [
      `one channel of an endless row: pitch ${row.pitch.toFixed(3)} mm, ${row.between.toFixed(3)} mm of material between neighbours; in a metre of width ${row.areaPerMetre.toPrecision(4)} mm² and a conductance of ${row.conductancePerMetre.toPrecision(4)} mm⁴`,
    ];
  if (group !== undefined)
    return [
      `${group.number} channels, neighbours mirror images of each other: pitch ${group.pitch.toFixed(3)} mm, ${group.between.toFixed(3)} mm of material between neighbours; areas and flows are those of all`,
    ];
  if (pair === undefined) return [];
  const { pitch, between } = pair;
  return [
    `two channels, mirror images of each other: pitch ${pitch.toFixed(3)} mm, ${between.toFixed(3)} mm of material between them; areas and flows are those of both`,
  ];
}

function knownEdgeLine({ fast, allow, strength }: CheckDocument): string[] {
  return knownEdgeText(fast.peak, strength, allow, 'the outline checked here');
}

/** One channel, or two, for people: the stresses of both models side by side, load by load and case by case, and the joint's strength. */
export function checkText(check: CheckDocument, { width }: Terminal): string {
  const { fast, meshed, difference } = check;
  const columns: TableColumn[] = [
    { heading: 'stress under', align: 'left' },
    { heading: 'peak', unit: 'MPa', align: 'right' },
    ...(meshed === undefined
      ? []
      : ([
          { heading: 'peak meshed', unit: 'MPa', align: 'right' },
          { heading: 'difference', unit: '%', align: 'right' },
          { heading: "mesh's own error", unit: '%', align: 'right' },
        ] as const)),
    { heading: 'at', unit: 'mm', align: 'right' },
    { heading: 'least', unit: 'MPa', align: 'right' },
    ...(meshed === undefined ? [] : ([{ heading: 'least meshed', unit: 'MPa', align: 'right' }] as const)),
  ];
  const rows = (['loads', 'cases'] as const).flatMap((kind) =>
    Object.entries(fast[kind]).map(([name, { peak, at, least }]) => {
      const other = meshed?.[kind][name as never] as { peak: number; least: number; error: number } | undefined;
      return [
        `${kind === 'loads' ? 'load' : 'case'} ${name}`,
        peak.toFixed(2),
        ...(other === undefined
          ? []
          : [other.peak.toFixed(2), percent(difference![kind][name]!), percent(other.error)]),
        at.map(millimetres).join(', '),
        least.toFixed(2),
        ...(other === undefined ? [] : [other.least.toFixed(2)]),
      ];
    }),
  );
  return [
    check.title,
    ...materialsLine(check),
    '',
    ...groupLine(check),
    `area ${check.area.toFixed(4)} mm², perimeter ${check.perimeter.toFixed(4)} mm, ${check.pair === undefined && check.group === undefined ? '' : 'each '}${check.width.toFixed(3)} mm wide, ${check.height.toFixed(3)} mm high${check.pocketHeight === undefined ? '' : `, in a pocket ${check.pocketHeight.toFixed(3)} mm high`}`,
    `conductance ${Number(check.conductance.toPrecision(4))} mm⁴: laminar flow x viscosity x length / pressure`,
    `${Number.isFinite(check.wall) ? `wall ${check.wall.toFixed(3)} mm, ` : ''}least edge radius ${check.minEdgeRadius.toFixed(3)} mm`,
    `peak ${fast.peak.toFixed(2)} MPa in case ${fast.worstCase}: ${fast.peak <= check.allow ? 'within' : 'beyond'} the allowed ${check.allow} MPa`,
    ...knownEdgeLine(check),
    '',
    formatTable(columns, rows, { width, keys: 1 }),
    `fast model: ${fast.nodes} nodes; half as many change a peak by ${percent(Math.abs(fast.change))} %${fast.accuracy === undefined ? '' : `, the model is thought to be off by ${percent(fast.accuracy)} %`} of the largest hoop stress`,
    ...(meshed === undefined
      ? ['the independent mesh was left out (--fast)']
      : [
          `mesh: ${meshed.meshes.map(({ triangles }) => triangles).join(' and ')} triangles, own error ${percent(meshed.error)} %`,
          `largest difference ${percent(Math.abs(difference!.worst.difference))} % of the largest hoop stress`,
        ]),
    '',
    ...(check.strength === undefined ? [] : [...strengthText(check.strength, width), '']),
    ...(check.crackGrowth === undefined ? [] : [...crackText(check.crackGrowth, width), '']),
    ...check.cautions.map((text) => `note: ${text}`),
    caution,
  ].join('\n');
}
