import type { MeshedEdge } from '@lumenfront/core';
import { type MeshHost, type MeshRequest, meshEdge } from '@lumenfront/optimizer';
import { workerData } from 'piscina';

export function mesh(request: MeshRequest): MeshedEdge {
  return meshEdge(workerData as MeshHost, request);
}
