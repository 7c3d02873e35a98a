import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief, starterBrief } from '../brief/index.js';
import { type ChannelTask, channelRoom, createChannelReporter } from '../channel/index.js';
import { decodeModel, encodeModel, type ReducedModel } from '../host/index.js';
import { outlineOf } from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';
import { governingPlaces, strengthDifference } from './index.js';

let task: ChannelTask;
let few: ReducedModel;
let edgeOf: (y: number, width: number, height: number) => SolvedEdge;

beforeAll(async () => {
  task = preparedTask(await readBrief(starterBrief));
  const report = createChannelReporter(task);
  edgeOf = (y, width, height) =>
    report(outlineOf({ family: 'ellipse', parameters: { y, width, height } }, channelRoom(task))).edge;
  few = governingPlaces(task, [edgeOf(1.9, 0.6, 0.6), edgeOf(1.7, 2.6, 1.4), edgeOf(2.4, 1, 2)]);
});

describe('places that fail first', () => {
  it('tell the strength that other channels leave as all places do', () => {
    const others = [edgeOf(1.8, 1.2, 0.8), edgeOf(1.5, 2, 1), edgeOf(2, 2.2, 1.8), edgeOf(3, 0.7, 1.6)];
    expect(strengthDifference(task, few, others)).toBeLessThan(1e-3);
    expect(strengthDifference(task, decodeModel('', encodeModel('', few)), others)).toBeLessThan(1e-3);
    // What stays of a coefficient counts.
    const { places } = few;
    const change = places.change.map((map) =>
      'whole' in map ? map : { ...map, symmetric: map.symmetric.map((v) => 1.01 * v) },
    );
    expect(strengthDifference(task, { ...few, places: { ...places, change } }, others)).toBeGreaterThan(1e-3);
  });

  it('are few, of few digits', () => {
    expect(few.places.points.length).toBeLessThan(task.model.places.points.length / 3);
    const zeros = new Uint8Array(encodeModel('', few)).reduce((sum, byte) => sum + (byte === 0 ? 1 : 0), 0);
    expect(zeros / encodeModel('', few).length).toBeGreaterThan(0.6);
  });
});
