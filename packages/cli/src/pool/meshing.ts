import { setImmediate } from 'node:timers/promises';
import type { MeshedEdge } from '@lumenfront/core';
import { type MeshHost, type Meshing, type MeshRequest, meshEdge } from '@lumenfront/optimizer';

const workerFile = new URL('../../dist/pool/mesh-worker.js', import.meta.url);

/** Meshing on so many worker threads; with one, in this thread. To be closed after use. */
export async function createMeshing(host: MeshHost, workers: number): Promise<Meshing> {
  if (!(workers > 1)) return { mesh: (request) => meshHere(host, request), close: async () => {} };
  const { Piscina } = await import('piscina');
  const { joint, loads, cases } = host;
  const pool = new Piscina<MeshRequest, MeshedEdge>({
    filename: workerFile.href,
    name: 'mesh',
    workerData: { joint, loads, cases } satisfies MeshHost,
    minThreads: workers,
    maxThreads: workers,
    // Arrays of a mesh soon outgrow what is kept for short-lived objects: without a limit they wait there for long.
    resourceLimits: { maxYoungGenerationSizeMb: 4 },
  });
  return { mesh: (request) => pool.run(request), close: () => pool.destroy() };
}

async function meshHere(host: MeshHost, request: MeshRequest): Promise<MeshedEdge> {
  // Of many requests at once, each has its turn: progress can be told between them.
  await setImmediate();
  return meshEdge(host, request);
}
