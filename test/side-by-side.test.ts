import {
  type ChannelTask,
  channelRoom,
  createChannelReporter,
  createCurveNodes,
  createStressModel,
  createTask,
  type OutlineData,
  outlineOf,
  readBrief,
  reduceJoint,
  starterBrief,
} from '@lumenfront/core';
import { createChannelEvaluator, findFront, pickLargest } from '@lumenfront/optimizer';
import { expect, it } from 'vitest';
import { preparedTask } from './fixtures/reduced.js';

// What a tool that embeds the packages counts on: nothing that one caller does shows at another, nor in what was handed in.

const plate = (load: string, more = '') =>
  readBrief(`host: { kind: plate }\nloads: { farField: ${load} }\nchannel: { families: [ellipse]${more} }\n`);
const plates = async () => [await plate('{ sx: 10 }'), await plate('{ sx: 3, txy: 5 }', ', mirror: false')] as const;

const searched = ({ designs, evaluations, stop }: Awaited<ReturnType<typeof findFront>>) => ({
  designs,
  evaluations,
  stop,
});

/** A front and a pick of a task, in one thread. */
const searchesOf = (task: ChannelTask) => [
  () => findFront(createChannelEvaluator(task), { seed: 3, evaluations: 150 }).then(searched),
  () => pickLargest(createChannelEvaluator(task), { seed: 4, evaluations: 80, allow: 1e3 }),
];

const atOnce = async (tasks: readonly ChannelTask[]) => {
  const searches = tasks.flatMap(searchesOf);
  const alone = [];
  for (const search of searches) alone.push(await search());
  expect(await Promise.all(searches.map((search) => search()))).toEqual(alone);
};

it('searches at once give to the bit what each gives alone', async () => {
  await atOnce((await plates()).map(preparedTask));
});

it('searches of unlike joints at once, likewise', { tags: 'long' }, async () => {
  await atOnce([await readBrief(starterBrief), ...(await plates())].map(preparedTask));
});

const ellipses = (task: ChannelTask): readonly OutlineData[] =>
  [0.6, 0.9, 1.3].map((width) => {
    const middle = { y: 1.9, width, height: 0.7 };
    const parameters = task.channel.mirror ? middle : { x: 0.1, ...middle, turn: 0.2 };
    return { family: 'ellipse', parameters };
  });

/** Stresses of outlines, one by one. */
function* solved(task: ChannelTask) {
  const stress = createStressModel(task.model, task.loads, task.cases);
  const report = createChannelReporter(task);
  for (const data of ellipses(task)) {
    const outline = outlineOf(data, channelRoom(task));
    const nodes = createCurveNodes(64);
    outline.place(nodes);
    const { worst, hoop, moments } = stress.evaluate(nodes, false);
    yield structuredClone({ worst, hoop, moments });
    yield structuredClone(report(outline).design);
  }
}

it('two models that are asked by turns give to the bit what each gives alone', async () => {
  const tasks = (await plates()).map(preparedTask);
  const alone = tasks.map((task) => [...solved(task)]);
  const steps = tasks.map(solved);
  alone[0]!.forEach((_, i) => {
    steps.forEach((step, t) => {
      expect(step.next().value).toEqual(alone[t]![i]);
    });
  });
});

/** All that can be frozen; typed arrays cannot. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  for (const part of Object.values(value)) frozen(part);
  return Object.freeze(value);
}

it('brief, joint, model and outlines are left alone, frozen or not', async () => {
  for (const read of await plates()) {
    const brief = frozen(read);
    const before = structuredClone(brief);
    const model = frozen(reduceJoint(brief.joint, brief.channel));
    const sound = structuredClone(model);
    const task = frozen(createTask(brief, model));
    for (const data of ellipses(task))
      createChannelReporter(task)(frozen(outlineOf(frozen(data), channelRoom(task)))).strengthSummary();
    for (const search of searchesOf(task)) await search();
    expect(brief).toEqual(before);
    expect(model).toEqual(sound);
  }
});
