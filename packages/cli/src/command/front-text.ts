import { type Colour, caution, formatPlot, formatTable } from '../show/index.js';
import type { DesignDocument, FrontDocument, RepeatsDocument } from '../task/index.js';
import { formatDesigns } from './design-table.js';
import type { Timing } from './search-options.js';
import { describeCautions, describeSearch } from './search-text.js';
import type { Terminal } from './terminal.js';

/** Rows of the comparison of families. */
const comparedAreas = 6;

const signs: Readonly<Record<string, readonly [symbol: string, colour: Colour]>> = {
  ellipse: ['o', 34],
  teardrop: ['t', 32],
  spline: ['s', 35],
  inset: ['i', 36],
};

/** A front for people: plot, table of the designs at the places `shown`, the families side by side, how the search went. */
export function frontText(
  front: FrontDocument,
  shown: readonly number[],
  timing: Timing,
  { width, colour }: Terminal,
): string {
  const { designs, reference, search } = front;
  const change = Math.max(...designs.map((design) => Math.abs(design.change)));
  return [
    front.title,
    '',
    plotOf(front, { width, colour }),
    shown.length < designs.length
      ? `${shown.length} of the ${designs.length} designs of the front, evenly spread in area; the best over all families:`
      : `the ${designs.length} designs of the front, the best over all families:`,
    '',
    formatDesigns(
      'design',
      [...shown.map((i) => ({ label: String(i + 1), design: designs[i]! })), { label: 'ref.', design: reference }],
      reference,
      width,
    ),
    ...familiesText(front, width),
    ...describeSearch(search, timing),
    `  hypervolume ${Number(search.hypervolume.toPrecision(6))} mm² MPa, within area ${search.referencePoint[0]} mm² and peak ${search.referencePoint[1].toFixed(1)} MPa`,
    ...describeRepeats(search.repeats),
    `  twice the nodes change a peak by at most ${(100 * change).toFixed(2)} %`,
    '',
    ...describeCautions(front),
    caution,
  ].join('\n');
}

function plotOf({ families, designs, reference, allow }: FrontDocument, { width, colour }: Terminal): string {
  const pointsOf = (members: readonly DesignDocument[]) => members.map(({ area, peak }) => ({ x: area, y: peak }));
  const names = Object.keys(families);
  // A family's own front, below what it gives to the common one: a plain shape that is nearly as good shows.
  const series = names.map((name) => {
    const [symbol, own] = signs[name] ?? ['*', 33];
    return { name, symbol, colour: own, points: pointsOf(families[name]!) };
  });
  const best = names.map((name) => {
    const [symbol, own] = signs[name] ?? ['*', 33];
    const members = designs.filter(({ family }) => family === name);
    return { name: `${name}, on the front`, symbol: symbol.toUpperCase(), colour: own, points: pointsOf(members) };
  });
  return formatPlot(
    {
      xLabel: 'area [mm²]',
      yLabel: 'peak [MPa]',
      series: [...series, ...best, { name: 'reference', symbol: '#', colour: 31, points: pointsOf([reference]) }],
      limit: { name: `allowed ${allow} MPa`, y: allow },
    },
    { width: Math.min(width, 110), height: 18, colour },
  );
}

/** The least peak that each family reaches at no less than a few areas. */
function familiesText({ families, designs }: FrontDocument, width: number): string[] {
  const names = Object.keys(families);
  if (names.length < 2) return [];
  const most = Math.max(...designs.map(({ area }) => area));
  const areas = Array.from({ length: comparedAreas }, (_, k) => (most * (k + 1)) / (comparedAreas + 1));
  return [
    'least peak of each family by itself, at no less than an area:',
    '',
    formatTable(
      [
        { heading: 'area', unit: 'mm²', align: 'right' },
        ...names.map((name) => ({ heading: name, unit: 'MPa', align: 'right' as const })),
      ],
      areas.map((least) => [
        least.toFixed(3),
        ...names.map((name) => {
          const peaks = families[name]!.filter(({ area }) => area >= least).map(({ peak }) => peak);
          return peaks.length === 0 ? undefined : Math.min(...peaks).toFixed(1);
        }),
      ]),
      { width, keys: 1 },
    ),
  ];
}

function describeRepeats(repeats: RepeatsDocument | undefined): string[] {
  if (repeats === undefined) return [];
  const { seeds, least, median, most, referencePoint } = repeats;
  const volume = (value: number) => String(Number(value.toPrecision(6)));
  return [
    `  over ${seeds.length} seeds, ${seeds[0]!.seed} to ${seeds.at(-1)!.seed}: hypervolume ${volume(least)} to ${volume(most)}, median ${volume(median)} mm² MPa, ` +
      `spread ${((100 * (most - least)) / median).toFixed(2)} %, within peak ${referencePoint[1].toFixed(1)} MPa`,
  ];
}
