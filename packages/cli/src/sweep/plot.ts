import type { ChannelObjective } from '@lumenfront/core';
import type { RunKind } from '@lumenfront/optimizer';
import type { Place, SeriesPictureRequest } from '../picture/index.js';
import { axisTitle, costFigure, sizeFigure } from '../show/index.js';
import { figureTitle, type SweepFigure, type SweepFigureName, sweepFigures } from './figure-list.js';
import { type CaseFigures, usualObjective } from './figures.js';
import { valueText } from './summary.js';

/** What is plotted, over which of the varied values; of fronts the fronts themselves where no figure is named. */
export interface PlotWish {
  readonly figure?: SweepFigureName;
  /** A path of the brief; the first one with numbers if absent. */
  readonly over?: string;
}

/**
 * What the plot of a sweep shows: a figure over the varied values (of picks the area where none is named), or fronts.
 *
 * @param units of the varied values that have one, by path
 */
export function sweepPlot(
  title: string,
  kind: RunKind,
  units: Readonly<Record<string, string>>,
  figures: readonly CaseFigures[],
  wish: PlotWish = {},
): SeriesPictureRequest {
  if (kind === 'front' && wish.figure === undefined) return plotOfFronts(title, figures);
  return plotOfFigure(title, units, figures, wish);
}

const areaTitle = 'channel area, mm²';

function plotOfFigure(
  title: string,
  units: Readonly<Record<string, string>>,
  figures: readonly CaseFigures[],
  { figure: name = 'area', over }: PlotWish,
): SeriesPictureRequest {
  const figure: SweepFigure = sweepFigures[name];
  const paths = Object.keys(figures[0]?.vary ?? {});
  // Numbers along the axis where there are any: words tell series apart just as well.
  const isNumeric = (path: string) => figures.every(({ vary }) => typeof vary[path] === 'number');
  const along = over ?? paths.find(isNumeric) ?? paths[0]!;
  const numeric = isNumeric(along) ? along : undefined;
  const others = paths.filter((path) => path !== along);
  const placeOf = ({ vary }: CaseFigures): Place =>
    numeric === undefined ? valueText(vary[along]) : (vary[along] as number);
  const groups = groupBy(figures, (one) => labelOf(one, others));
  return {
    title: name === 'area' ? `${title}: largest channel within the allowed peak` : `${title}: ${figure.title}`,
    x: {
      title: units[along] === undefined ? along : `${along}, ${units[along]}`,
      ...(numeric === undefined ? { words: [...new Set(figures.map((one) => valueText(one.vary[along])))] } : {}),
    },
    y: { title: figureTitle(figure) },
    series: [...groups].map(([label, members]) => ({
      ...(label === '' ? {} : { label }),
      points: members
        .flatMap((one) => {
          const y = figure.of(one);
          return y === undefined ? [] : [{ x: placeOf(one), y }];
        })
        .sort((a, b) => (typeof a.x === 'number' && typeof b.x === 'number' ? a.x - b.x : 0)),
    })),
    joined: numeric !== undefined,
    missing: {
      label: name === 'area' ? 'no channel: see the summary' : 'none: see the summary',
      places: [...new Set(figures.filter((one) => figure.of(one) === undefined).map(placeOf))],
    },
  };
}

function plotOfFronts(title: string, figures: readonly CaseFigures[]): SeriesPictureRequest {
  return {
    title: `${title}: fronts`,
    ...axesOf(figures),
    series: figures
      .filter(({ front }) => front.length > 0)
      .map((one) => ({
        label: labelOf(one, Object.keys(one.vary)),
        points: one.front.map(({ size, against }) => ({ x: size, y: against })),
      })),
    joined: false,
  };
}

/** Where fronts trade different figures, those are named one after the other. */
function axesOf(figures: readonly CaseFigures[]): Pick<SeriesPictureRequest, 'x' | 'y'> {
  const objectives = figures.flatMap(({ objective, front }) => (front.length > 0 ? [objective ?? usualObjective] : []));
  const title = (titleOf: (objective: ChannelObjective) => string) =>
    [...new Set(objectives.map(titleOf))].join(' or ');
  return {
    x: { title: title((one) => (one.size === 'area' ? areaTitle : axisTitle(sizeFigure(one)))) },
    y: {
      title: title((one) => (one.cost === 'peak' ? 'peak edge stress, worst case, MPa' : axisTitle(costFigure(one)))),
    },
  };
}

/** `bendRadius 5, support clamped`: the last step of a path says enough in a key. */
function labelOf({ vary }: CaseFigures, paths: readonly string[]): string {
  return paths.map((path) => `${/[^.]*$/.exec(path)![0]} ${valueText(vary[path])}`).join(', ');
}

function groupBy<Entry>(entries: readonly Entry[], keyOf: (entry: Entry) => string): Map<string, Entry[]> {
  const groups = new Map<string, Entry[]>();
  for (const entry of entries) {
    const group = groups.get(keyOf(entry));
    if (group === undefined) groups.set(keyOf(entry), [entry]);
    else group.push(entry);
  }
  return groups;
}
