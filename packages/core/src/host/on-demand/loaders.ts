import type { Joint, KnownKind } from '../contract.js';
import type { BuiltIn } from '../kinds.js';
import { liesBesideAnother, liesInFiller, liesInPocket } from '../tee/index.js';

/**
 * Stands for `no-loaders.ts` where hosts come on demand (see `loadHost`): each kind a part of a bundle by itself, with how briefs tell of it. A
 * joint, or the host of a brief as it is written, gets what it needs; without one, all of the kind is loaded.
 */
export const loaders: { readonly [Kind in keyof BuiltIn]: (joint?: Joint) => Promise<KnownKind<BuiltIn[Kind]>> } = {
  tee: async (joint) => {
    if (joint !== undefined && liesInFiller(joint)) return (await import('./filler-tee.js')).fillerTee;
    if (joint !== undefined && liesInPocket(joint)) return (await import('./pocket-tee.js')).pocketTee;
    if (joint !== undefined && liesBesideAnother(joint)) return (await import('./beside-tee.js')).besideTee;
    return (await import('./tee.js')).tee;
  },
  plate: async () => (await import('./plate.js')).plate,
  laminate: async () => (await import('./laminate.js')).laminate,
  section: async () => (await import('./section.js')).section,
};
