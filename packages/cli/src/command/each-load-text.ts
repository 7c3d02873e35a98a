import type { DesignDocument, FrontDocument } from '@lumenfront/core';
import { costFigure, formatTable, sizeFigure, type TableColumn } from '../show/index.js';

/** Which outline each load asks for by itself. */
export function eachLoadText(
  {
    eachLoad,
    reference,
    search: { objective },
    allow,
  }: Pick<FrontDocument, 'eachLoad' | 'reference' | 'search' | 'allow'>,
  width: number,
): string[] {
  if (eachLoad === undefined) return [];
  const size = sizeFigure(objective, reference.row !== undefined);
  const cost = costFigure(objective);
  const unit = cost.unit === '' ? {} : { unit: cost.unit };
  const within = objective.cost === 'peak' ? `within ${Number(allow.toPrecision(4))} MPa` : 'that bears the loads';
  const outline = (heading: string): TableColumn[] => [
    { heading, unit: 'mm', align: 'right' },
    { heading: 'form', align: 'left' },
  ];
  const columns: TableColumn[] = [
    { heading: 'load by itself', align: 'left' },
    { heading: `${cost.grows ? 'most' : 'least'} ${cost.name}`, ...unit, align: 'right' },
    ...outline('its width x height'),
    { heading: `largest ${within}`, unit: size.unit, align: 'right' },
    ...outline('its width x height'),
  ];
  const rows = eachLoad.map(({ load, leastCost, largest }) => [
    load,
    leastCost && cost.text(cost.of(leastCost)),
    ...outlineCells(leastCost),
    largest && size.text(size.of(largest)),
    ...outlineCells(largest),
  ]);
  return [
    'which outline each load asks for by itself, at its given size:',
    '',
    formatTable(columns, rows, { width, keys: 1 }),
    ...eachLoad.flatMap(({ load, unmet }) => (unmet === undefined ? [] : [`${load}: ${unmet}`, ''])),
  ];
}

/** Wider than high, or higher than wide, by more than this ratio is not round. */
const round = 1.25;

function outlineCells(design: DesignDocument | undefined): (string | undefined)[] {
  if (design === undefined) return [undefined, undefined];
  const { width, height } = design;
  const form = width > round * height ? 'flat' : height > round * width ? 'tall' : 'round';
  return [`${width.toFixed(2)} x ${height.toFixed(2)}`, form];
}
