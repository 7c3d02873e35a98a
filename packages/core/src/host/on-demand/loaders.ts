import type { KnownKind } from '../contract.js';
import type { BuiltIn } from '../kinds.js';

/** Stands for `no-loaders.ts` under the condition `lumenfront-hosts-on-demand`: each kind a part of a bundle by itself, with how briefs tell of it. */
export const loaders: { readonly [Kind in keyof BuiltIn]: () => Promise<KnownKind<BuiltIn[Kind]>> } = {
  tee: async () => (await import('./tee.js')).tee,
  plate: async () => (await import('./plate.js')).plate,
  laminate: async () => (await import('./laminate.js')).laminate,
  section: async () => (await import('./section.js')).section,
};
