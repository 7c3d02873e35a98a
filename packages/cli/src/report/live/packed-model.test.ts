import { isDeepStrictEqual } from 'node:util';
import { deflateRawSync } from 'node:zlib';
import {
  channelRoom,
  createChannelReporter,
  encodeModel,
  governingPlaces,
  outlineOf,
  type ReducedModel,
  readBrief,
  starterBrief,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../../test/fixtures/reduced.js';
import { packModel, unpackModel } from './packed-model.js';

describe('a packed model', () => {
  const taskOf = async () => preparedTask(await readBrief(starterBrief));
  const comesBack = (model: ReducedModel) =>
    expect(isDeepStrictEqual(unsigned(unpackModel(packModel(model))), unsigned(model))).toBe(true);

  it('is the whole model to the last bit, places of all digits', { tags: 'long' }, async () => {
    comesBack((await taskOf()).model);
  });

  it('is the model to the last bit, with places of few digits, and smaller', async () => {
    const task = await taskOf();
    const outline = outlineOf({ family: 'ellipse', parameters: { y: 1.8, width: 2, height: 1.2 } }, channelRoom(task));
    const few = governingPlaces(task, [createChannelReporter(task)(outline).edge]);
    comesBack(few);
    const size = (bytes: Uint8Array) => deflateRawSync(bytes).length;
    expect(size(packModel(few))).toBeLessThan(0.7 * size(encodeModel('', few)));
  });
});

/** With 0 for -0 in the maps of places. */
const unsigned = (model: ReducedModel) => ({
  ...model,
  places: {
    ...model.places,
    change: model.places.change.map((map) =>
      Object.values(map).map((values: Float64Array) => values.map((v) => v + 0)),
    ),
  },
});
