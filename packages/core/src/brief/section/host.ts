import type { z as zod } from 'zod/mini';
import { briefKinds, type Joint } from '../../host/index.js';
import { expectation, type Zod } from '../../input/index.js';

/** Section `host`: what the channel is embedded in, one branch a kind of host. */
export function hostSection(z: Zod): zod.ZodMiniType<Joint> {
  const kinds = briefKinds();
  const names = kinds.map(({ kind }) => kind);
  const [first, ...others] = kinds.map((kind) => kind.section(z));
  const union = z.meta(
    z.discriminatedUnion('kind', [first!, ...others], {
      error: (issue) =>
        issue.code === 'invalid_union'
          ? expectation(
              names.join(' or '),
              `write ${kinds.map(({ kind, name }) => `kind: ${kind} for ${name}`).join(', ')}`,
            )
          : expectation(
              `a mapping with ${names.map((name) => `kind: ${name}`).join(' or ')}`,
              'describe the joint here',
            ),
    }),
    { description: 'What the channel is embedded in.' },
  );
  // What a section holds beside its kind is known to its kind alone.
  return union as unknown as zod.ZodMiniType<Joint>;
}
