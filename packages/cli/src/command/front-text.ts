import type { DesignDocument, FrontDocument, RepeatsDocument, ResolvedBrief } from '@lumenfront/core';
import { caution } from '../caution.js';
import {
  answerOf,
  axisLabel,
  type Colour,
  costFigure,
  formatPlot,
  formatTable,
  preferredDesign,
  sizeFigure,
  withUnit,
} from '../show/index.js';
import { quoted } from './called-as.js';
import { choicesText } from './choices-text.js';
import { chosenBrief } from './chosen-brief.js';
import { formatDesigns } from './design-table.js';
import { eachLoadText } from './each-load-text.js';
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

/** Rows of the comparison of families. */
const comparedSizes = 6;

const signs: Readonly<Record<string, readonly [symbol: string, colour: Colour]>> = {
  ellipse: ['o', 34],
  teardrop: ['t', 32],
  spline: ['s', 35],
  inset: ['i', 36],
};

/** What a front is told beside. */
export interface FrontTold {
  readonly brief: ResolvedBrief;
  /** The files that were read and written, where there are such. */
  readonly briefFile?: string;
  readonly out?: string;
  /** Places of the designs of the table. */
  readonly shown: readonly number[];
  readonly timing: Timing;
  /** How the search went as well. */
  readonly details: boolean;
}

/** A front for people: plot, table of the designs at the places `shown`, the families side by side, and last the answer in words. */
export function frontText(front: FrontDocument, told: FrontTold, { width, colour }: Terminal): string {
  const { designs, reference, search } = front;
  const { shown, timing, details } = told;
  const size = sizeFigure(search.objective, reference.row !== undefined);
  const picked = preferredDesign(designs, front.allow, search.objective);
  const brief = chosenBrief(told.brief, designs[picked]?.choice, 'front');
  const rows = [...shown, ...(shown.includes(picked) ? [] : [picked])].sort((a, b) => a - b);
  return [
    front.title,
    ...materialsLine(front),
    '',
    plotOf(front, { width, colour }),
    rows.length < designs.length
      ? `${rows.length} of the ${designs.length} designs of the front, evenly spread in ${size.name}; the best over all families:`
      : `the ${designs.length} designs of the front, the best over all families:`,
    '',
    formatDesigns(
      'design',
      [...rows.map((i) => ({ label: String(i + 1), design: designs[i]! })), { label: 'ref.', design: reference }],
      reference,
      width,
      search.objective,
    ),
    ...marksText([...rows.map((i) => designs[i]!), reference]),
    ...familiesText(front, width),
    ...choicesText(front, width),
    ...eachLoadText(front, width),
    describeSearch(search, timing),
    ...(details ? detailsText(front) : []),
    '',
    ...answerOf({ ...front, picked, kind: 'front', objective: search.objective }, brief),
    '',
    ...nextCommands(nextOf({ ...told, brief }, picked + 1)),
    '',
    ...describeCautions(front),
    caution,
  ].join('\n');
}

/** What the marks in the table mean. */
function marksText(told: readonly DesignDocument[]): string[] {
  return [
    ...(told.some(({ strength }) => strength !== undefined && strength.loadFactor < 1)
      ? ['!  the joint fails below the loads as given', '']
      : []),
    ...(told.some(({ difference }) => difference?.holds === false)
      ? ['*  fast model and mesh differ by more than they may, in some load or case: check that design', '']
      : []),
  ];
}

function nextOf({ briefFile, out, brief: asked }: FrontTold, design: number): [what: string, command: string][] {
  const brief = briefFile === undefined ? '' : ` ${quoted(briefFile)}`;
  if (out === undefined)
    return [
      ...(briefFile === undefined ? [['a brief of your own', 'brief --out joint.yaml'] as [string, string]] : []),
      ['keep the front', `front${brief || ' joint.yaml'} --out front.json`],
      ['look at it', `report${brief || ' joint.yaml'} --channel front.json --out front.html`],
    ];
  const of = `${brief} --channel ${quoted(out)}`;
  return [
    ['look at it', `report${of} --out front.html`],
    [`check design ${design}`, `check${of} --design ${design}`],
    ...scatterOf(asked, `scatter${of} --design ${design}`),
    ['draw it', `draw${of} --design ${design} --out channel.dxf`],
  ];
}

/** What tells how good the search was. */
function detailsText({ designs, search, reference }: FrontDocument): string[] {
  const size = sizeFigure(search.objective, reference.row !== undefined);
  const cost = costFigure(search.objective);
  const hypervolumeUnit = `${size.unit}${cost.hypervolumeUnit}`;
  const within = (value: number) => `${cost.name} ${withUnit(cost, cost.ofCost(value))}`;
  return [
    ...describeFamilies(search),
    `  hypervolume ${Number(search.hypervolume.toPrecision(6))} ${hypervolumeUnit}, within ${size.name} ${search.referencePoint[0]} ${size.unit} and ${within(search.referencePoint[1])}`,
    ...describeRepeats(search.repeats, hypervolumeUnit, within),
    describeErrors(designs),
  ];
}

function plotOf({ families, designs, reference, allow, search }: FrontDocument, { width, colour }: Terminal): string {
  const size = sizeFigure(search.objective, reference.row !== undefined);
  const cost = costFigure(search.objective);
  const pointsOf = (members: readonly DesignDocument[]) =>
    members.map((design) => ({ x: size.of(design), y: cost.of(design) }));
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
      xLabel: axisLabel(size),
      yLabel: axisLabel(cost),
      series: [...series, ...best, { name: 'reference', symbol: '#', colour: 31, points: pointsOf([reference]) }],
      ...(search.objective.cost === 'peak' ? { limit: { name: `allowed ${allow} MPa`, y: allow } } : {}),
    },
    { width: Math.min(width, 110), height: 18, colour },
  );
}

/** The best that each family reaches at no less than a few sizes. */
function familiesText({ families, designs, search, reference }: FrontDocument, width: number): string[] {
  const names = Object.keys(families);
  if (names.length < 2) return [];
  const size = sizeFigure(search.objective, reference.row !== undefined);
  const cost = costFigure(search.objective);
  const most = Math.max(...designs.map(size.of));
  const sizes = Array.from({ length: comparedSizes }, (_, k) => (most * (k + 1)) / (comparedSizes + 1));
  const unitOf = ({ unit }: { readonly unit: string }) => (unit === '' ? {} : { unit });
  return [
    `${cost.grows ? 'largest' : 'least'} ${cost.name} of each family by itself, at no less than ${size.name.startsWith('area') ? 'an' : 'a'} ${size.name}:`,
    '',
    formatTable(
      [
        { heading: size.name, unit: size.unit, align: 'right' },
        ...names.map((name) => ({ heading: name, ...unitOf(cost), align: 'right' as const })),
      ],
      sizes.map((least) => [
        size.text(least),
        ...names.map((name) => {
          const values = families[name]!.filter((design) => size.of(design) >= least).map(cost.of);
          return values.length === 0 ? undefined : cost.text(cost.grows ? Math.max(...values) : Math.min(...values));
        }),
      ]),
      { width, keys: 1 },
    ),
  ];
}

function describeRepeats(
  repeats: RepeatsDocument | undefined,
  hypervolumeUnit: string,
  within: (cost: number) => string,
): string[] {
  if (repeats === undefined) return [];
  const { seeds, least, median, most, referencePoint } = repeats;
  if (seeds.length === 1)
    return [`  one search found a front, that with seed ${seeds[0]!.seed}: what chance does to it cannot be told`];
  const volume = (value: number) => String(Number(value.toPrecision(6)));
  return [
    `  over ${seeds.length} seeds, ${seeds[0]!.seed} to ${seeds.at(-1)!.seed}: hypervolume ${volume(least)} to ${volume(most)}, median ${volume(median)} ${hypervolumeUnit}, ` +
      `spread ${((100 * (most - least)) / median).toFixed(2)} %, within ${within(referencePoint[1])}`,
  ];
}
