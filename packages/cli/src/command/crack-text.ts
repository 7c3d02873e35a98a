import type { CrackGrowth } from '@lumenfront/core';
import { formatTable } from '../show/index.js';
import { factorText } from './strength-text.js';

/** What the energy release of cracks means here, and what is left out. */
export const crackLimits =
  'Crack: one at a time, along one interface straight out of the pocket, whose resin holds at its mouth. It grows where G_I/G_Ic + G_II/G_IIc = 1; linear elasticity, no contact ' +
  '(a crack that closes has no G_I), no fibre bridging. Between plies of unlike angles the split into modes is that of a growth by a tenth of a ply.';

const energy = (value: number) => String(Number(value.toPrecision(3)));

/** What cracks they are. */
export const cracksText = ({ length, modeI, modeII }: CrackGrowth): string =>
  `cracks between plies, ${length} mm from the ends of the pocket (G_Ic ${modeI}, G_IIc ${modeII} N/mm), by the mesh`;

/** Each in each case: case, end, ply below, plies beside, both modes' energies, error and load factor. */
export const crackRows = ({ cracks }: CrackGrowth): (string | undefined)[][] =>
  cracks.flatMap(({ end, below, between, cases }) =>
    Object.entries(cases).map(([name, one]) => [
      ...[name, `${end} end`, String(below), between],
      ...[one.closed ? 'closed' : energy(one.modeI), energy(one.modeII), (100 * one.error).toFixed(2)],
      factorText(one.loadFactor),
    ]),
  );

export const leastCrackText = ({ loadFactor }: CrackGrowth): string =>
  `least load factor at which one grows: ${factorText(loadFactor) ?? 'none grows at any'}`;

/** Cracks that run out of the pocket, for people. */
export function crackText(growth: CrackGrowth, width: number): string[] {
  return [
    `${cracksText(growth)}:`,
    '',
    formatTable(
      [
        { heading: 'case', align: 'left' },
        { heading: 'out of the', align: 'left' },
        { heading: 'above ply', align: 'right' },
        { heading: 'between', align: 'right' },
        { heading: 'G_I', unit: 'N/mm', align: 'right' },
        { heading: 'G_II', unit: 'N/mm', align: 'right' },
        { heading: "mesh's own error", unit: '%', align: 'right' },
        { heading: 'grows at load factor', align: 'right' },
      ],
      crackRows(growth),
      { width, keys: 4 },
    ),
    leastCrackText(growth),
    `note: ${crackLimits}`,
  ];
}
