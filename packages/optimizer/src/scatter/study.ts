import {
  type ChannelTask,
  type Curve,
  createCurveNodes,
  createOutlineMeasure,
  createStrengthModel,
  createStressModel,
  InputError,
  innerPoint,
  type Joint,
  measureOutline,
  modelBorder,
  nodesNeeded,
  type Ply,
  reduceJoint,
  type StrengthOptions,
  UnmetError,
} from '@lumenfront/core';
import { mean, quantileSorted, standardDeviation } from 'simple-statistics';
import type { Random } from '../random.js';
import { type Deviation, deviate, waveCounts } from './perturb.js';

/**
 * What scatters from one made channel to the next: standard deviations (`normal`) or half ranges (`uniform`) of independent deviations.
 * What is left out does not scatter.
 */
export interface Scatter {
  readonly distribution: 'normal' | 'uniform';
  readonly samples: number;
  /** Form of the edge along its normal, mm: half of its variance is size, the rest two to four waves. */
  readonly outline?: number;
  /** Position across and up, each, mm. */
  readonly position?: number;
  /** Degrees. */
  readonly turn?: number;
  /** All strengths of a joint together, as a share. */
  readonly strength?: number;
  /** Size of the cure load (temperature change, or all expansions together), as a share. */
  readonly cure?: number;
}

/** Distribution of one figure over the samples. */
export interface Spread {
  readonly mean: number;
  readonly deviation: number;
  readonly least: number;
  readonly quantile05: number;
  readonly median: number;
  readonly quantile95: number;
  readonly most: number;
}

/** What scatter does to a design. */
export interface ScatterStudy {
  readonly nominal: ScatterFigures;
  /** Peak hoop tension of the worst case, MPa. */
  readonly peak: Spread;
  readonly loadFactor: Spread;
  readonly retained: Spread;
  /** Share of the judged samples in which failure starts at the edge of the channel. */
  readonly startsAtEdge: number;
  readonly samples: number;
  /** Samples that were judged. The others left the control contour or crossed themselves: they are no channels of this joint. */
  readonly judged: number;
}

interface ScatterFigures {
  readonly peak: number;
  readonly loadFactor: number;
  readonly retained: number;
}

interface JudgedSample extends ScatterFigures {
  readonly place: string;
}

/** Deviations in units of their size that the control contour leaves room for. */
const roomFor = 3;
/** Of the wall and the edge radius, this share at least stays. */
const leastShare = 0.3;

/**
 * Judges a design as it is made, over and over: outline, position, strengths and cure vary at random. The joint is solved once more, with a
 * contour that leaves room for the deviations. Same random source, same result.
 *
 * Stiffness does not scatter here: it would need the joint solved for every sample. Throws InputError for scatter that is none.
 */
export function studyScatter(
  task: ChannelTask,
  options: StrengthOptions,
  outline: Curve,
  scatter: Scatter,
  random: Random,
): ScatterStudy {
  checkScatter(scatter);
  const { joint, loads, cases, channel } = task;
  const reach = roomFor * Math.hypot(scatter.outline ?? 0, scatter.position ?? 0);
  const model = reduceJoint(joint, {
    wall: Math.max(leastShare * channel.wall, channel.wall - reach),
    edgeRadius: Math.max(leastShare * channel.edgeRadius, channel.edgeRadius - reach),
  });
  const border = modelBorder(model);
  const measure = createOutlineMeasure();
  const first = createCurveNodes(128);
  const inner = { x: 0, y: 0 };

  const judge = (made: Curve, strength: number, cure: number): JudgedSample | undefined => {
    made.place(first);
    measureOutline(first, border, measure);
    if (!measure.simple || measure.wall < 0) return undefined;
    const nodes = createCurveNodes(nodesNeeded(first));
    made.place(nodes);
    innerPoint(nodes, measure, inner);
    const acting = loads.cure === undefined ? loads : { ...loads, cure: { deltaT: loads.cure.deltaT * cure } };
    const stress = createStressModel(model, acting, cases).evaluate(nodes, false, inner);
    if (!Number.isFinite(stress.worst)) return undefined;
    const found = createStrengthModel(model, withStrength(joint, strength), acting, cases, options).evaluate(
      stress,
      nodes,
      false,
      inner,
    );
    return { peak: stress.worst, loadFactor: found.loadFactor, retained: found.retained, place: found.place };
  };

  const nominal = judge(outline, 1, 1);
  if (nominal === undefined)
    throw new InputError({
      path: 'channel',
      expected: 'a channel that keeps the wall and the edge radius of the brief',
      received: 'one that does not',
      remedy: 'lower channel.wall and channel.edgeRadius in the brief to what the channel has',
    });
  const draw = scatter.distribution === 'normal' ? () => random.normal() : () => 2 * random.uniform() - 1;
  const shapeScatters = [scatter.outline, scatter.position, scatter.turn].some((size) => (size ?? 0) > 0);
  const judged: JudgedSample[] = [];
  for (let k = 0; k < scatter.samples; k++) {
    const deviation = drawDeviation(scatter, draw);
    // A strength or a cure that scatters below a tenth is no longer one.
    const strength = Math.max(0.1, 1 + (scatter.strength ?? 0) * draw());
    const cure = Math.max(0.1, 1 + (scatter.cure ?? 0) * draw());
    const made = shapeScatters ? madeFrom(outline, deviation) : outline;
    const figures = made && judge(made, strength, cure);
    if (figures !== undefined) judged.push(figures);
  }
  if (judged.length === 0)
    throw new UnmetError(
      `none of ${scatter.samples} samples is a channel of this joint: they cross themselves or leave the room of the control contour; reduce the scatter`,
    );
  const { peak, loadFactor, retained } = nominal;
  return {
    nominal: { peak, loadFactor, retained },
    peak: spreadOf(judged.map((one) => one.peak)),
    loadFactor: spreadOf(judged.map((one) => one.loadFactor)),
    retained: spreadOf(judged.map((one) => one.retained)),
    startsAtEdge: judged.filter(({ place }) => place === 'edge').length / judged.length,
    samples: scatter.samples,
    judged: judged.length,
  };
}

/** Independent deviations; every number is drawn whether it scatters or not, so that one scatter does not change another's numbers. */
function drawDeviation({ outline = 0, position = 0, turn = 0 }: Scatter, draw: () => number): Deviation {
  const size = outline * Math.SQRT1_2 * draw();
  const perWave = outline * Math.sqrt(1 / (2 * waveCounts.length));
  return {
    size,
    waves: Array.from({ length: 2 * waveCounts.length }, () => perWave * draw()),
    x: position * draw(),
    y: position * draw(),
    turn: turn * draw(),
  };
}

/** `undefined` where the deviation folds the outline. */
function madeFrom(outline: Curve, deviation: Deviation): Curve | undefined {
  try {
    return deviate(outline, deviation);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

/** The joint with all its strengths times `factor`. */
function withStrength(joint: Joint, factor: number): Joint {
  const scaled = (ply: Ply): Ply => ({
    ...ply,
    transverseTension: ply.transverseTension * factor,
    interlaminarShear: ply.interlaminarShear * factor,
  });
  if (joint.kind === 'plate') return { ...joint, material: scaled(joint.material) };
  const layup = (layers: typeof joint.skin) => layers.map((layer) => ({ ...layer, ply: scaled(layer.ply) }));
  return {
    ...joint,
    overlaminate: layup(joint.overlaminate),
    skin: layup(joint.skin),
    filler: scaled(joint.filler),
  };
}

function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return {
    mean: mean(sorted),
    deviation: standardDeviation(sorted),
    least: sorted[0]!,
    quantile05: quantileSorted(sorted, 0.05),
    median: quantileSorted(sorted, 0.5),
    quantile95: quantileSorted(sorted, 0.95),
    most: sorted.at(-1)!,
  };
}

function checkScatter(scatter: Scatter): void {
  const fail = (path: string, expected: string, received: unknown) => {
    throw new InputError({ path: `scatter.${path}`, expected, received: String(received), remedy: 'correct it' });
  };
  if (!(Number.isSafeInteger(scatter.samples) && scatter.samples > 0))
    fail('samples', 'a whole number above 0', scatter.samples);
  for (const name of ['outline', 'position', 'turn', 'strength', 'cure'] as const) {
    const size = scatter[name] ?? 0;
    if (!(size >= 0 && Number.isFinite(size))) fail(name, 'a number of 0 or more', size);
  }
}
