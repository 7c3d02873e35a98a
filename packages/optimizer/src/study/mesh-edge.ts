import { type CurveNodes, type MeshedEdge, meshedStress, type ResolvedBrief, sideBySide } from '@lumenfront/core';

/** The joint in which channels are meshed, and what acts on it. */
export type MeshHost = Pick<ResolvedBrief, 'joint' | 'loads' | 'cases' | 'channel'>;

/** What is meshed: a host with a channel in it, under loads and cases. */
export interface MeshRequest {
  /** The outline, densely. */
  readonly nodes: CurveNodes;
  /** See `MeshedOptions` of core. */
  readonly coarseness: number;
}

/** Of a meshed solution its peaks are passed on, not its fields. */
export function meshEdge({ joint, loads, cases, channel }: MeshHost, { nodes, coarseness }: MeshRequest): MeshedEdge {
  const stress = meshedStress(joint, loads, cases, nodes, { coarseness, channels: sideBySide(channel) });
  return { loads: stress.loads, cases: stress.cases, error: stress.error, meshes: stress.meshes };
}
