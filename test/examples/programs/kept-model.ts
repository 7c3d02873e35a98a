// A reduced model kept as bytes, and what is refused: damage, another version, another joint.
import {
  createTask,
  decodeModel,
  encodeModel,
  InputError,
  readBrief,
  reduceJoint,
  starterBrief,
} from '@lumenfront/core';

const brief = await readBrief(starterBrief);
const bytes = encodeModel('joint 1', reduceJoint(brief.joint, brief.channel)); // to a file, IndexedDB, a message
const task = createTask(brief, decodeModel('joint 1', bytes));
console.log(task.model.kind, bytes.length > 1e6); // tee true

const refused = (attempt: () => unknown) => {
  try {
    attempt();
    return 'taken';
  } catch (error) {
    return error instanceof InputError ? error.problems[0]!.expected : 'not an InputError';
  }
};
const changed = (at: number) => bytes.map((value, i) => (i === at ? value ^ 1 : value));
console.log(refused(() => decodeModel('joint 1', changed(5000)))); // a sound model
console.log(refused(() => decodeModel('joint 1', bytes.subarray(0, 9999)))); // a sound model
console.log(refused(() => decodeModel('joint 2', bytes))); // the model of this joint
console.log(refused(() => decodeModel('joint 1', changed(8))).startsWith('a reduced model of version')); // true
const other = { ...brief, channel: { ...brief.channel, wall: brief.channel.wall / 2 } };
console.log(refused(() => createTask(other, task.model)).startsWith('a model for a wall of')); // true
