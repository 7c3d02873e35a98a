import {
  areaAgainstPeak,
  type ComparedChoice,
  choiceText,
  type FrontDocument,
  type ResolvedBrief,
  valueText,
} from '@lumenfront/core';
import { costFigure, formatTable, sizeFigure, type TableColumn, withUnit } from '../show/index.js';
import type { ResultFile } from './result-file.js';

/** What a brief leaves open, side by side: for each choice the largest channel to take, and the least of what it is traded for. */
export function choicesText({ choices, allow, search, reference }: FrontDocument, width: number): string[] {
  if (choices === undefined || choices.length === 0) return [];
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
  const sizeText = (best: ComparedChoice['largest']) =>
    best && size.text(objective.size === 'area' ? best.area : best.conductance);
  const costText = (best: ComparedChoice['largest']) => {
    if (best === undefined) return undefined;
    const { peak, loadFactor, retained = Number.NaN } = best;
    if (objective.cost === 'peak') return cost.text(peak);
    return cost.text(objective.cost === 'loadFactor' ? (loadFactor ?? Number.NaN) : 100 * retained);
  };
  const place = (best: ComparedChoice['largest']) => (best?.design === undefined ? undefined : String(best.design));
  return [
    'what the brief leaves open, side by side:',
    '',
    formatTable(
      columns,
      choices.map(({ choice, designs, largest: best, leastCost }) => [
        ...paths.map((path) => valueText(choice[path])),
        ...[sizeText(best), costText(best), place(best)],
        ...[costText(leastCost), sizeText(leastCost), place(leastCost)],
        String(designs),
      ]),
      { width, keys: paths.length },
    ),
  ];
}

/** The same in sentences. */
export function choiceSentences({ choices = [], reference, search }: ResultFile): string[] {
  const objective = search.objective ?? areaAgainstPeak;
  const size = sizeFigure(objective, reference.row !== undefined);
  const sizeOf = (best: NonNullable<ComparedChoice['largest']>) =>
    `${withUnit(size, objective.size === 'area' ? best.area : best.conductance)}${reference.row === undefined ? '' : ' in a metre'} at a peak of ${best.peak.toFixed(1)} MPa`;
  return choices.map(
    ({ choice, largest, leastCost, unmet }) =>
      `${choiceText(choice)}: ${[
        ...(largest === undefined ? [] : [`at most ${sizeOf(largest)}`]),
        ...(leastCost === undefined
          ? []
          : [`${objective.cost === 'peak' ? 'least stressed' : 'strongest'} ${sizeOf(leastCost)}`]),
        ...(unmet === undefined ? [] : ['no channel']),
      ].join(', ')}.`,
  );
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
