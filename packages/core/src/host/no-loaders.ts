import type { Joint, KnownKind } from './contract.js';

/** Kinds that are built in, but come on demand: none, but where `on-demand/loaders.ts` stands instead. */
export const loaders: Readonly<Record<string, (joint?: Joint) => Promise<KnownKind>>> = {};
