import { setImmediate } from 'node:timers/promises';
import type { MeshedEdge } from '@lumenfront/core';
import { type MeshHost, type Meshing, type MeshRequest, meshEdge } from '@lumenfront/optimizer';
import { openThreads } from './threads.js';

const workerFile = new URL('../../dist/pool/mesh-worker.js', import.meta.url);

/** Meshing on so many worker threads; with one, in this thread. To be closed after use. */
export async function createMeshing(host: MeshHost, workers: number): Promise<Meshing> {
  if (!(workers > 1)) return { mesh: (request) => meshHere(host, request), close: async () => {} };
  const { joint, loads, cases, channel } = host;
  const threads = await openThreads<MeshRequest, MeshedEdge>({
    workerFile,
    workers,
    workerData: { joint, loads, cases, channel } satisfies MeshHost,
    // Arrays of a mesh soon outgrow what is kept for short-lived objects: without a limit they wait there for long.
    resourceLimits: { maxYoungGenerationSizeMb: 4 },
  });
  return { mesh: (request) => threads.run(request, 'mesh'), close: threads.close };
}

async function meshHere(host: MeshHost, request: MeshRequest): Promise<MeshedEdge> {
  // Of many requests at once, each has its turn: progress can be told between them.
  await setImmediate();
  return meshEdge(host, request);
}
