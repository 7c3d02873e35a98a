import { type ChannelObjective, type ChoiceValues, type DesignDocument, isVerified, valueText } from '@lumenfront/core';
import { formatTable, type TableColumn } from '../show/index.js';
import { clarityText, startText, timesText } from '../words/index.js';
import { percentText } from './strength-text.js';

/** A row of a table of designs. */
export interface DesignRow {
  /** Number of the design, or what else it is called. */
  readonly label: string;
  readonly design: DesignDocument;
}

/** What several channels are together. */
const groupOf = ({ pair, group }: DesignDocument) => group ?? pair;

/** Designs with their figures, each against the reference: a table for people. `objective`: of the front, whose figures are all shown. */
export function formatDesigns(
  heading: string,
  rows: readonly DesignRow[],
  reference: DesignDocument,
  width: number,
  objective?: ChannelObjective,
): string {
  const cases = Object.keys(reference.cases);
  const withStrength = rows.some(({ design }) => design.strength !== undefined);
  const verified = rows.some(({ design }) => isVerified(design));
  const inRow = rows.some(({ design }) => design.row !== undefined);
  const open = rows.some(({ design }) => design.choice !== undefined);
  const paired = rows.some(({ design }) => groupOf(design) !== undefined);
  const certified = rows.some(({ design }) => design.locallyOptimalWithin !== undefined);
  const besideKnown = rows.some(({ design }) => design.strength?.beside !== undefined);
  const columns: TableColumn[] = [
    { heading, align: 'right' },
    { heading: 'family', align: 'left' },
    ...(open ? [{ heading: 'choice', align: 'left' as const }] : []),
    {
      heading: paired && !rows.some(({ design }) => groupOf(design) === undefined) ? 'area of all' : 'area',
      unit: 'mm²',
      align: 'right',
    },
    ...(inRow ? [{ heading: 'area per metre', unit: 'mm²', align: 'right' as const }] : []),
    { heading: 'area / ref.', align: 'right' },
    { heading: 'width x height', unit: 'mm', align: 'right' },
    ...(paired || inRow ? [{ heading: 'pitch', unit: 'mm', align: 'right' as const }] : []),
    ...(objective?.size === 'conductance' ? [{ heading: 'conductance', unit: 'mm⁴', align: 'right' as const }] : []),
    { heading: 'flow / ref.', align: 'right' },
    { heading: 'peak', unit: 'MPa', align: 'right' },
    { heading: 'peak / ref.', align: 'right' },
    ...(verified
      ? [
          { heading: 'peak meshed', unit: 'MPa', align: 'right' as const },
          { heading: 'mesh differs', unit: '%', align: 'right' as const },
        ]
      : []),
    ...(cases.length > 1
      ? cases.map((name): TableColumn => ({ heading: `peak ${name}`, unit: 'MPa', align: 'right' }))
      : []),
    ...(besideKnown ? [{ heading: 'known outline', unit: 'MPa', align: 'right' as const }] : []),
    ...(objective?.cost === 'loadFactor' ? [{ heading: 'load factor', align: 'right' as const }] : []),
    ...(withStrength
      ? [
          { heading: 'strength retained', unit: '%', align: 'right' as const },
          { heading: 'failure starts', align: 'left' as const },
          { heading: 'next fails at', align: 'left' as const },
        ]
      : []),
    ...(certified ? [{ heading: 'locally optimal within', unit: '%', align: 'right' as const }] : []),
    { heading: 'wall', unit: 'mm', align: 'right' },
    { heading: 'edge radius', unit: 'mm', align: 'right' },
  ];
  return formatTable(
    columns,
    rows.map(({ label, design }) => [
      label,
      design.family,
      ...(open ? [design.choice && shortChoice(design.choice)] : []),
      design.area.toFixed(3),
      ...(inRow ? [design.row?.areaPerMetre.toPrecision(4)] : []),
      (design.area / reference.area).toFixed(2),
      `${design.width.toFixed(2)} x ${design.height.toFixed(2)}`,
      ...(paired || inRow ? [(groupOf(design) ?? design.row)?.pitch.toFixed(2)] : []),
      ...(objective?.size === 'conductance' ? [design.conductance.toPrecision(4)] : []),
      timesText(design.conductance / reference.conductance),
      design.peak.toFixed(1),
      reference.peak > 0 ? (design.peak / reference.peak).toFixed(2) : undefined,
      ...(verified ? meshedCells(design) : []),
      ...(cases.length > 1 ? cases.map((name) => design.cases[name]!.peak.toFixed(1)) : []),
      ...(besideKnown ? [design.strength?.beside?.stress.toFixed(1)] : []),
      ...(objective?.cost === 'loadFactor' ? [design.strength?.loadFactor.toFixed(3)] : []),
      ...(withStrength ? strengthCells(design) : []),
      ...(certified
        ? [design.locallyOptimalWithin === undefined ? undefined : (100 * design.locallyOptimalWithin).toFixed(2)]
        : []),
      // A plate has no border.
      Number.isFinite(design.wall) ? design.wall.toFixed(3) : undefined,
      design.minEdgeRadius.toFixed(3),
    ]),
    { width, keys: 2 },
  );
}

/** By the last steps of the paths, which are told in full beside: `number 2, above 4`. */
function shortChoice(choice: ChoiceValues): string {
  return Object.entries(choice)
    .map(([path, value]) => `${path.slice(path.lastIndexOf('.') + 1)} ${valueText(value)}`)
    .join(', ');
}

function meshedCells(design: DesignDocument): (string | undefined)[] {
  if (!isVerified(design)) return [undefined, undefined];
  const { meshed, difference } = design;
  const peak = Math.max(...Object.values(meshed.cases).map((one) => one.peak));
  return [
    peak.toFixed(1),
    `${(100 * Math.abs(difference.worst.difference)).toFixed(2)}${difference.holds ? '' : ' *'}`,
  ];
}

function strengthCells({ strength }: DesignDocument): (string | undefined)[] {
  if (strength === undefined) return [undefined, undefined, undefined];
  const retained = percentText(strength.retained);
  return [
    retained === undefined || strength.loadFactor >= 1 ? retained : `${retained} !`,
    startText(strength),
    clarityText(strength),
  ];
}
