import type { Joint, KnownKind } from '../contract.js';
import type { BuiltIn } from '../kinds.js';

/**
 * Stands for `no-loaders.ts` where hosts come on demand (see `loadHost`): each kind a part of a bundle by itself, with how briefs tell of it. A
 * joint, or the host of a brief as it is written, gets what it needs; without one, all of the kind is loaded.
 */
export const loaders: { readonly [Kind in keyof BuiltIn]: (joint?: Joint) => Promise<KnownKind<BuiltIn[Kind]>> } = {
  tee: async (joint) => {
    if (joint === undefined || hasKnownChannel(joint)) return (await import('./tee.js')).tee;
    return 'pocket' in joint
      ? (await import('./pocket-tee.js')).pocketTee
      : (await import('./filler-tee.js')).fillerTee;
  },
  plate: async () => (await import('./plate.js')).plate,
  laminate: async () => (await import('./laminate.js')).laminate,
  section: async () => (await import('./section.js')).section,
};

/** Beside the pocket of a tee: told by a joint, or by a brief as it is written. */
function hasKnownChannel(host: object): boolean {
  const { filler } = host as { readonly filler?: unknown };
  return 'fillerChannel' in host || (typeof filler === 'object' && filler !== null && 'channel' in filler);
}
