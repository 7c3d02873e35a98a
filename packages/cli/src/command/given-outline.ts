import {
  type Curve,
  channelBorder,
  createCurveNodes,
  createOutlineMeasure,
  followOutline,
  InputError,
  measureOutline,
  type OutlineData,
  type OutlineMeasure,
  outlineOf,
  type ResolvedBrief,
  wholeRoom,
} from '@lumenfront/core';
import type { OutlineSampler } from '../draw/index.js';

export interface GivenOutline {
  readonly curve: Curve;
  readonly sample: OutlineSampler;
  readonly measure: Readonly<OutlineMeasure>;
}

const MEASURE_NODES = 1024;

/**
 * A given outline in the joint of a brief, whatever wall and edge radius the brief asks for.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler
 */
export function givenOutline(data: OutlineData, brief: ResolvedBrief, path: string): GivenOutline {
  const { group } = brief.channel;
  const curve = outlineOf(data, wholeRoom(brief));
  const sample = (count: number) => {
    const nodes = createCurveNodes(count);
    curve.place(nodes);
    return nodes;
  };
  const measure = createOutlineMeasure();
  measureOutline(sample(MEASURE_NODES), channelBorder(followOutline(brief, curve)), measure);
  if (!measure.simple)
    throw new InputError({
      path,
      expected: 'a closed outline that does not cross itself',
      received: 'one that does',
      remedy: 'correct the channel',
    });
  if (!(measure.wall > 0))
    throw new InputError({
      path,
      expected: `an outline inside the filler${group === undefined || group.number % 2 === 1 ? '' : ', of an even number of channels the one right of x = 0'}`,
      received: `one that leaves it by ${(-measure.wall).toPrecision(3)} mm`,
      remedy: 'move or shrink the channel, or give the brief that it was found for',
    });
  return { curve, sample, measure };
}
