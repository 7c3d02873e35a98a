import type { PickDocument, ResolvedBrief } from '@lumenfront/core';
import { caution } from '../caution.js';
import { answerOf } from '../show/index.js';
import { quoted } from './called-as.js';
import { formatDesigns } from './design-table.js';
import { materialsLine } from './materials-text.js';
import type { Timing } from './search-options.js';
import {
  describeCautions,
  describeErrors,
  describeFamilies,
  describeSearch,
  nextCommands,
  scatterOf,
} from './search-text.js';
import type { Terminal } from './terminal.js';

/** What a pick is told beside. */
export interface PickTold {
  readonly brief: ResolvedBrief;
  /** The files that were read and written, where there are such. */
  readonly briefFile?: string;
  readonly out?: string;
  readonly timing: Timing;
  /** How the search went as well. */
  readonly details: boolean;
  /** Made channels were to keep the allowed peak. */
  readonly made: boolean;
}

/** A pick for people: the channel, what the other families reach, the reference, and last the answer in words. */
export function pickText(pick: PickDocument, told: PickTold, { width }: Terminal): string {
  const { design, families, reference, allow, search } = pick;
  const { brief, timing, details, made: wanted } = told;
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
    describeSearch(search, timing),
    ...(details
      ? [
          ...describeFamilies(search),
          describeErrors([design]),
          `  parameters: ${Object.entries(design.parameters)
            .map(([name, value]) => `${name} ${Number(value.toPrecision(6))}`)
            .join(', ')}`,
        ]
      : []),
    '',
    ...answerOf(
      {
        ...{ kind: 'pick', designs: [design], reference, allow, picked: 0 },
        ...(wanted && pick.made !== undefined ? { quantile: pick.made.quantile } : {}),
      },
      brief,
    ),
    ...repeatsText(pick),
    ...madeText(pick),
    '',
    ...nextCommands(nextOf(told)),
    '',
    ...describeCautions(pick),
    caution,
  ].join('\n');
}

/** What chance does to it. */
function repeatsText({ search: { repeats } }: PickDocument): string[] {
  if (repeats === undefined) return [];
  const { seeds, least, median, most } = repeats;
  if (seeds.length === 1)
    return [`One search found a channel, that with seed ${seeds[0]!.seed}: what chance does to it cannot be told.`];
  return [
    `Over ${seeds.length} seeds, ${seeds[0]!.seed} to ${seeds.at(-1)!.seed}, picks have ${least.toFixed(3)} to ${most.toFixed(3)} mm², median ${median.toFixed(3)}: a spread of ${((100 * (most - least)) / median).toFixed(1)} %. This is the largest.`,
  ];
}

/** What scatter leaves of it. */
function madeText({ made, allow }: PickDocument): string[] {
  if (made === undefined) return [];
  const { withinAllowed, quantile, peak, samples } = made;
  const share = `${Number((100 * quantile).toPrecision(3))} %`;
  const kept = withinAllowed >= quantile;
  return [
    `As it is made: ${(100 * withinAllowed).toFixed(0)} % of ${samples} channels like it stay within ${allow} MPa, ${
      peak === undefined
        ? `too many come too near to the laminate for a peak of ${share}`
        : `${share} within ${peak.toFixed(1)} MPa`
    } (section scatter of the brief, whose defaults are examples).${kept ? '' : ` The pick that ${share} of made channels keep: add --made.`}`,
  ];
}

function nextOf({ briefFile, out, brief: asked }: PickTold): [what: string, command: string][] {
  const brief = briefFile === undefined ? '' : ` ${quoted(briefFile)}`;
  if (out === undefined) return [['keep it', `pick${brief || ' joint.yaml'} --out pick.json`]];
  const of = `${brief} --channel ${quoted(out)}`;
  return [
    ['check it by the independent mesh', `check${of}`],
    ['look at it', `report${of} --out pick.html`],
    ...scatterOf(asked, `scatter${of}`),
    ['draw it', `draw${of} --out channel.dxf`],
  ];
}
