import {
  areaAgainstPeak,
  type ChannelObjective,
  type ChoiceValues,
  type ComparedChoice,
  choiceText,
  type DesignDocument,
  type FrontDocument,
  type ResolvedBrief,
  valueText,
} from '@lumenfront/core';
import type { ChoiceLine, ReportTable } from '../report/index.js';
import { costFigure, formatTable, sizeFigure, type TableColumn, withUnit } from '../show/index.js';
import type { ResultFile } from './result-file.js';

type Best = NonNullable<ComparedChoice['largest']>;

/** What a brief leaves open, side by side: for each choice the largest channel to take, and the least of what it is traded for. */
export function choicesText(front: FrontDocument, width: number): string[] {
  const { choices } = front;
  if (choices === undefined || choices.length === 0) return [];
  const { columns, rows } = comparedTable({ ...front, choices });
  return [
    'what the brief leaves open, side by side:',
    '',
    formatTable(columns, rows, { width, keys: Object.keys(choices[0]!.choice).length }),
  ];
}

/** The same as it is asked for by the report. */
export function choicesTable(result: ResultFile): ReportTable | undefined {
  const { choices, allow = Number.NaN, reference, search } = result;
  if (choices === undefined || choices.length === 0) return undefined;
  const objective = search.objective ?? areaAgainstPeak;
  const { columns, rows } = comparedTable({ choices, allow, reference, search: { objective } });
  return {
    heading: 'Choices side by side',
    columns: ['choice', ...columns.map(({ heading, unit }) => (unit === undefined ? heading : `${heading}, ${unit}`))],
    rows: rows.map((row, c) => [String(c + 1), ...row.map((cell) => cell ?? '–')]),
    note: 'Numbers of designs are those of the whole front, as --design takes them.',
  };
}

/** What tables and charts of choices are made of. */
interface Compared {
  readonly choices: readonly ComparedChoice[];
  readonly allow: number;
  readonly reference: DesignDocument;
  readonly search: { readonly objective: ChannelObjective };
}

function comparedTable({ choices, allow, search, reference }: Compared) {
  const { objective } = search;
  const size = sizeFigure(objective, reference.row !== undefined);
  const cost = costFigure(objective);
  const paths = Object.keys(choices[0]!.choice);
  const unitOf = ({ unit }: { readonly unit: string }) => (unit === '' ? {} : { unit });
  const within = objective.cost === 'peak' ? `within ${Number(allow.toPrecision(4))} MPa` : 'that bears the loads';
  const largest = `largest ${size.name.endsWith('per metre') ? 'per metre ' : ''}${within}`;
  const columns: TableColumn[] = [
    ...paths.map((heading): TableColumn => ({ heading, align: 'right' })),
    { heading: largest, unit: size.unit, align: 'right' },
    { heading: `its ${cost.name}`, ...unitOf(cost), align: 'right' },
    { heading: 'design', align: 'right' },
    { heading: `${cost.grows ? 'most' : 'least'} ${cost.name}`, ...unitOf(cost), align: 'right' },
    { heading: `at ${size.name}`, unit: size.unit, align: 'right' },
    { heading: 'design', align: 'right' },
    { heading: 'designs on the front', align: 'right' },
  ];
  const sizeText = (best: Best | undefined) => best && size.text(placeOf(objective, best)[0]);
  const costText = (best: Best | undefined) => best && cost.text(placeOf(objective, best)[1]);
  const number = (best: Best | undefined) => (best?.design === undefined ? undefined : String(best.design));
  const rows = choices.map(({ choice, designs, largest: best, leastCost }) => [
    ...paths.map((path) => valueText(choice[path])),
    ...[sizeText(best), costText(best), number(best)],
    ...[costText(leastCost), sizeText(leastCost), number(leastCost)],
    String(designs),
  ]);
  return { columns, rows };
}

/** Where the channel of a choice stands on the axes of a front. */
function placeOf({ size, cost }: ChannelObjective, best: Best): readonly [x: number, y: number] {
  const { area, conductance, peak, loadFactor = Number.NaN, retained = Number.NaN } = best;
  const y = cost === 'peak' ? peak : cost === 'loadFactor' ? loadFactor : 100 * retained;
  return [size === 'area' ? area : conductance, y];
}

/**
 * The front of each choice as a line of the chart.
 *
 * @param own the choice whose designs the report shows
 */
export function choiceLines({ choices = [], search, reference }: ResultFile, own: ChoiceValues): ChoiceLine[] {
  const objective = search.objective ?? areaAgainstPeak;
  const [size, cost] = [sizeFigure(objective, reference.row !== undefined), costFigure(objective)];
  return choices.map(({ choice, front, largest, leastCost }, c) => {
    const found = front ?? [leastCost, largest].flatMap((one) => one ?? []);
    return {
      name: choiceText(choice),
      shown: choiceText(choice) === choiceText(own),
      points: found.map((one) => {
        const place = placeOf(objective, one);
        const number = one.design === undefined ? '' : `, design ${one.design} of the whole front`;
        return {
          place,
          caption: `choice ${c + 1}, ${choiceText(choice)}${number}: ${withUnit(size, place[0])}, ${cost.name} ${withUnit(cost, place[1])}`,
        };
      }),
    };
  });
}

/** The choices of a brief as a row of its summary. */
export function choicesRow({ choices }: ResolvedBrief): [label: string, text: string][] {
  return choices === undefined
    ? []
    : [
        [
          'choices',
          `${choices.length}, each searched by itself: ${choices.map(({ values }) => choiceText(values)).join('; ')}; what stands here is that of the first`,
        ],
      ];
}
