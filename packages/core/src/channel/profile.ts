import { createEdgeMemory, type EdgeMemory } from '../stress/index.js';
import { scoreSize } from './score.js';

/** Nodes for wall and curvature of a profile to one for stress: a descent finds every gap between them. */
const geometryNodes = 4;

/**
 * What a descent sees of one outline: its score, and smooth in its parameters what the score is made of. A mirror-symmetric outline gives the right
 * half of its nodes.
 */
export interface ChannelProfile {
  /** Number of the family. */
  readonly family: number;
  /** Nodes at which the stress is solved, and at which wall and curvature are looked at. */
  readonly count: number;
  readonly geometryCount: number;
  readonly score: Float64Array;
  /**
   * Their largest is the cost: case by case hoop stress at a node and half way to the next, node by node, then its peak, MPa; for a cost of
   * strength, one over load factors, times what they are held against: along the edge, then place by place.
   */
  readonly functions: Float64Array;
  /** Limits on strength, place by place, each met at 0 and below; none where nothing is asked. */
  readonly strength: Float64Array;
  /** Missing wall and excess extent, and excess curvature, normalised as the constraints of the score. */
  readonly room: Float64Array;
  readonly edgeRadius: Float64Array;
  /** What solved one outline is where the next begins. */
  readonly memory: EdgeMemory;
}

/** Buffers of a profile: lengths of `functions` and `strength`, and the nodes that are seen. */
export function createProfile(
  family: number,
  count: number,
  { seen, functions, strength }: { readonly seen: number; readonly functions: number; readonly strength: number },
): ChannelProfile {
  const values = (length: number) => new Float64Array(length);
  return {
    family,
    count,
    geometryCount: geometryNodes * count,
    score: values(scoreSize),
    functions: values(functions),
    strength: values(strength),
    room: values(geometryNodes * seen),
    edgeRadius: values(geometryNodes * seen),
    memory: createEdgeMemory(),
  };
}
