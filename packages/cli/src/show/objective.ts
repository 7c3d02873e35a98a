import type { ChannelObjective } from '@lumenfront/core';
import { costOf, sizeOf, type TradedFigures } from '@lumenfront/optimizer';

/** One of the two figures that a front trades, as people see it. */
export interface TradedFigure {
  readonly name: string;
  /** Empty for a figure without unit. */
  readonly unit: string;
  readonly of: (design: TradedFigures) => number;
  readonly text: (value: number) => string;
}

/** What is made large; `inRow`: of the channels in a metre of width. */
export function sizeFigure(objective: ChannelObjective, inRow = false): TradedFigure {
  const of = (design: TradedFigures) => sizeOf(objective, design);
  const name = inRow ? `${objective.size} per metre` : objective.size;
  return objective.size === 'conductance'
    ? { name, unit: 'mm⁴', of, text: (value) => value.toPrecision(4) }
    : { name, unit: 'mm²', of, text: (value) => (inRow ? value.toPrecision(4) : value.toFixed(3)) };
}

/** What is traded for it. */
export interface CostFigure extends TradedFigure {
  /** The better of two values is the larger one; a search lowers its inverse. */
  readonly grows: boolean;
  /** The value that belongs to a cost of the search. */
  readonly ofCost: (cost: number) => number;
  /** Unit of a hypervolume in size and cost, behind that of the size. */
  readonly hypervolumeUnit: string;
}

export function costFigure(objective: ChannelObjective): CostFigure {
  const figure = costFigures[objective.cost];
  return { ...figure, of: (design) => figure.ofCost(costOf(objective, design)) };
}

const costFigures: Readonly<Record<ChannelObjective['cost'], Omit<CostFigure, 'of'>>> = {
  peak: {
    name: 'peak',
    unit: 'MPa',
    grows: false,
    text: (value) => value.toFixed(1),
    ofCost: (cost) => cost,
    hypervolumeUnit: ' MPa',
  },
  loadFactor: {
    name: 'load factor',
    unit: '',
    grows: true,
    text: (value) => value.toFixed(3),
    ofCost: (cost) => 1 / cost,
    hypervolumeUnit: ' / load factor',
  },
  strengthRetained: {
    name: 'strength retained',
    unit: '%',
    grows: true,
    text: (value) => value.toFixed(1),
    ofCost: (cost) => 100 / cost,
    hypervolumeUnit: ' / share of strength retained',
  },
};

/** `area [mm²]`, as an axis says it. */
export const axisLabel = ({ name, unit }: TradedFigure): string => (unit === '' ? name : `${name} [${unit}]`);
/** `area, mm²`, as a picture's axis says it. */
export const axisTitle = ({ name, unit }: TradedFigure): string => (unit === '' ? name : `${name}, ${unit}`);
/** `20.0 MPa`. */
export const withUnit = ({ unit, text }: TradedFigure, value: number): string =>
  unit === '' ? text(value) : `${text(value)} ${unit}`;
