import type { PickDocument } from '@lumenfront/core';
import { caution } from '../words/index.js';
import { formatDesigns } from './design-table.js';
import { materialsLine } from './materials-text.js';
import type { Timing } from './search-options.js';
import { describeCautions, describeSearch } from './search-text.js';
import type { Terminal } from './terminal.js';

/** A pick for people: the channel, what the other families reach, the reference, how the search went. */
export function pickText(pick: PickDocument, timing: Timing, { width }: Terminal): string {
  const { design, families, reference, allow, search } = pick;
  const others = Object.values(families)
    .filter(({ family }) => family !== design.family)
    .sort((a, b) => b.area - a.area);
  return [
    pick.title,
    ...materialsLine(pick),
    '',
    `the largest channel within ${allow} MPa, ${others.length > 0 ? 'the largest of the other families, ' : ''}and the reference:`,
    '',
    formatDesigns(
      '',
      [
        { label: 'pick', design },
        ...others.map((other) => ({ label: 'other', design: other })),
        { label: 'ref.', design: reference },
      ],
      reference,
      width,
    ),
    'the pick is made by these parameters:',
    `  ${Object.entries(design.parameters)
      .map(([name, value]) => `${name} ${Number(value.toPrecision(6))}`)
      .join(', ')}`,
    '',
    ...describeSearch(search, timing),
    `  twice the nodes change the peak by ${(100 * Math.abs(design.change)).toFixed(2)} %`,
    '',
    ...describeCautions(pick),
    'check it against the independent mesh: lumenfront check --channel FILE, with what --out or --json wrote',
    caution,
  ].join('\n');
}
