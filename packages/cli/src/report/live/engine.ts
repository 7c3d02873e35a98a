import {
  type Curve,
  createChannelReporter,
  createCurveNodes,
  createTask,
  curvatureFamily,
  curvatureParameters,
  fitCurvature,
  hostOf,
  InputError,
  type OutlineData,
  outlineOf,
  placeLabel,
  UnmetError,
} from '@lumenfront/core';
import { createChannelEvaluator } from '@lumenfront/optimizer';
import { prepareDrawing, roundedPoints } from '../../draw/index.js';
import type { ReportChannel, ReportDesign } from '../data.js';
import { strengthFigures } from '../strength-figures.js';
import type { LiveData } from './live-data.js';
import { unpackModel } from './packed-model.js';

/** What is drawn and told of an outline. */
export type LiveChannel = Omit<ReportChannel, 'parameters' | 'field'>;

/** Solves outlines in the page. */
export interface LiveEngine {
  /** The outline of a design. */
  outline(index: number): Curve;
  /** Its figures; a sentence where it cannot be solved. `draft`: as a reporter gives them of an outline that is being dragged. */
  judge(curve: Curve, draft: boolean): LiveChannel | string;
  /** What is asked for and not kept, in words; empty where everything is. */
  missed(channel: LiveChannel): string;
  /** The locally best outline of no less area nearby, by exact slopes; a sentence where there is none. */
  refine(curve: Curve): Promise<{ readonly curve: Curve; readonly data: OutlineData } | string>;
  /** An outline as files hold it. */
  files(curve: Curve, data: OutlineData | undefined): NonNullable<ReportDesign['files']>;
}

/** Coefficients of a refinement; its first step in mean radii, and its sets of slopes: a few, so that what is near is reached. */
const pieces = 24;
const refinement = { pieces: undefined, radius: 0.03, slopes: 8, slopesBeyond: 0, beside: [[]], most: 400 };
const drawnPoints = 160;
/** A design found by a search ends on its limits. */
const rounding = 0.002;
const savedPoints = 400;

/** @param outlines of the designs, in their order */
export function openEngine({ model, brief }: LiveData, outlines: readonly OutlineData[]): LiveEngine {
  const task = createTask(brief, unpackModel(model));
  const report = createChannelReporter(task);
  const room = hostOf(brief.joint).wholeRoom({ mirror: brief.channel.mirror });
  const evaluator = createChannelEvaluator(task);
  const { frame } = hostOf(brief.joint).shape ?? {};

  const judge = (curve: Curve, draft: boolean): LiveChannel | string => {
    try {
      const { design, edge, caseHoop, strengthStarts } = report(curve, { draft });
      const told = strengthStarts();
      const { count, x, y } = edge.nodes;
      const stride = Math.ceil(count / drawnPoints);
      const shown = Array.from({ length: Math.ceil(count / stride) }, (_, k) => k * stride);
      const { area, conductance, peak, cases, wall, minEdgeRadius, worstCase } = design;
      return {
        ...{ family: 'by hand', area, conductance, peak, cases, minEdgeRadius },
        ...(Number.isFinite(wall) ? { wall } : {}),
        ...(told === undefined ? {} : { strength: strengthFigures(told) }),
        outline: shown.map((j) => [x[j]!, y[j]!] as const),
        edge: {
          worstCase,
          hoop: Object.fromEntries(
            Object.entries(caseHoop).map(([name, values]) => [name, shown.map((j) => values[j]!)]),
          ),
        },
      };
    } catch (error) {
      if (error instanceof InputError || error instanceof UnmetError) return error.message;
      throw error;
    }
  };

  return {
    outline: (index) => outlineOf(outlines[index]!, room),
    judge,
    missed({ wall, minEdgeRadius, strength }) {
      const { channel } = brief;
      const { leastRetained = 0, startsAwayFromEdge } = brief.strength;
      const below = (name: string, value: number, least: number) =>
        value < least * (1 - rounding) ? [`the ${name} is less than the ${least} mm asked for`] : [];
      return [
        ...below('wall', wall ?? Number.POSITIVE_INFINITY, channel.wall),
        ...below('edge radius', minEdgeRadius, channel.edgeRadius),
        ...(strength && !(strength.retained >= leastRetained * (1 - rounding))
          ? [`less strength is retained than the ${(100 * leastRetained).toFixed(1)} % asked for`]
          : []),
        ...(strength && startsAwayFromEdge && strength.startsAt === placeLabel('edge')
          ? ['failure starts at the edge of the channel, which is not to be']
          : []),
      ].join('; ');
    },
    async refine(curve) {
      const before = judge(curve, false);
      if (typeof before === 'string') return before;
      const fit = fitCurvature(curve, pieces, 1.001 * brief.channel.edgeRadius);
      if (fit === undefined)
        return 'This outline cannot be refined: no smooth outline of bounded curvature comes near it.';
      const start = { form: fit.outline.form, values: fit.values, nodes: fit.nodes };
      const [found] = await evaluator.refine([{ ...refinement, start, areas: [before.area] }]);
      const best = found?.reached[0];
      if (best === undefined) return `This outline cannot be refined: ${found?.stop}.`;
      const data = { family: curvatureFamily, parameters: curvatureParameters(best.design) };
      return { curve: outlineOf(data, room), data };
    },
    files(curve, data) {
      const sample = (count: number) => {
        const nodes = createCurveNodes(count);
        curve.place(nodes);
        return nodes;
      };
      const drawing = prepareDrawing({ outline: sample, ...(frame === undefined ? {} : { frame }) });
      const { x, y } = sample(savedPoints);
      const points = () => Array.from(x, (value, j) => [Number(value.toFixed(6)), Number(y[j]!.toFixed(6))] as const);
      const [area, perimeter, chordError] = [drawing.area, drawing.perimeter, drawing.chordError].map((v) =>
        v.toFixed(6),
      );
      return {
        vertices: roundedPoints(drawing.vertices),
        curves: roundedPoints(drawing.curves),
        ...{ area: area!, perimeter: perimeter!, chordError: chordError! },
        channel: data ?? { points: points() },
      };
    },
  };
}
