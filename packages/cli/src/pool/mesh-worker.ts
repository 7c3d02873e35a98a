import { workerData } from 'piscina';
import { type MeshedEdge, type MeshHost, type MeshRequest, meshEdge } from './mesh-edge.js';

export function mesh(request: MeshRequest): MeshedEdge {
  return meshEdge(workerData as MeshHost, request);
}
