import { createStrengthModel } from '../../packages/core/src/strength/index.js';
import { createStressModel } from '../../packages/core/src/stress/index.js';
import { reducedTee } from '../fixtures/reduced.js';
import {
  type ReferenceOutline,
  reference,
  referenceJoint,
  referenceLoads,
  referenceNodes,
} from '../fixtures/tee-reference.js';
import { type Check, once, type Publication } from './check.js';
import { meshedOutline } from './meshed-joint.js';

const loads = ['pull', 'cure'] as const;
const cases = loads.map((name) => ({ name, factors: { [name]: 1 } }));
const model = once(() => reducedTee(referenceJoint, 0.12, 0.12));

/** `checkMeshedJoint` meshes all outlines; the page needs a round, an upright and a cornered one. */
const alsoMeshed = ['circle 1.0', 'ellipse upright', 'curvilinear triangle, wall 0.6'];

function checksOf(outline: ReferenceOutline): Check[] {
  const { shape, name } = outline;
  const fast = once(() => {
    const nodes = referenceNodes(outline, shape.kind === 'ellipse' ? 96 : 128);
    return createStressModel(model(), referenceLoads, cases).evaluate(nodes, true).cases;
  });
  return loads.flatMap((load, l) => [
    {
      quantity: `fast: ${name}, peak under ${load}`,
      published: outline[load].peak,
      compute: () => fast()[l]!.peak,
      tolerance: shape.kind === 'ellipse' ? 0.001 : 0.005,
    },
    ...(alsoMeshed.includes(name)
      ? [
          {
            quantity: `mesh: ${name}, peak under ${load}`,
            published: outline[load].peak,
            compute: () => meshedOutline(outline).loads[load]!.peak,
            tolerance: 0.001,
          },
        ]
      : []),
  ]);
}

/** Load that the filler bears without channel, by its largest principal stress. */
const withoutChannel = once(
  () => createStrengthModel(model(), referenceJoint, referenceLoads, cases, { edge: 'peak' }).withoutChannel.cases,
);

export const independentJoint: Publication = {
  title: 'Channels in a T-joint: peak hoop stress, pull of 100 N/mm and cure by -155 K',
  source:
    'An independent finite-element solution of the whole joint (cubic triangles of another library, mesh error below 0.1 %): ' +
    'test/fixtures/tee-reference.json. Not a published value, but none of this project either',
  checks: [
    ...reference.outlines.flatMap(checksOf),
    ...loads.map((load, l) => ({
      quantity: `strength: load factor without channel, in the filler, under ${load}`,
      published: referenceJoint.filler.transverseTension / reference.withoutChannel[load].fillerPrincipal.value,
      compute: () => withoutChannel()[l]!.factor,
      tolerance: 0.01,
    })),
  ],
};
