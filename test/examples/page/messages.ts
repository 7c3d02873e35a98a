import type { TaskBrief } from '@lumenfront/core';
import type { FoundChannel } from '@lumenfront/optimizer';

/** What the page tells its worker. */
export type Order = { readonly start: string } | 'stop';

/** What the worker tells the page, in this order; `failed` instead of what is left. */
export type News =
  | { readonly reducing: number }
  | { readonly reduced: { readonly model: Uint8Array; readonly brief: TaskBrief; readonly milliseconds: number } }
  | { readonly progress: number }
  | { readonly found: readonly FoundChannel[]; readonly stop: string }
  | { readonly failed: string };
