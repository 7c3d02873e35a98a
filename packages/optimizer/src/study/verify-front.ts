import {
  type Curve,
  channelRoom,
  type DesignDocument,
  type FrontDocument,
  outlineOf,
  type ResolvedBrief,
  type VerifiedDesign,
} from '@lumenfront/core';
import { compareModels } from './agreement.js';
import { meshNodes } from './mesh-nodes.js';
import { referenceCurve } from './reference.js';
import type { Workplace } from './workplace.js';

/** Sides 2.5 times the usual: a third of the time and memory, and still errors of some 0.1 %, a tenth of a disagreement. */
const coarseness = 2.5;

/** Share of the meshed designs that may disagree before the others are in doubt as well: one of twelve is a matter of that one. */
const mostInDoubt = 0.1;

/** What the meshed designs of a front say of the others. */
function doubtsOfFront(verified: readonly VerifiedDesign[]): string[] {
  const off = verified.filter(({ difference }) => !difference.holds).length;
  return off <= mostInDoubt * verified.length
    ? []
    : [
        `the whole front is in doubt: ${off} of the ${verified.length} designs that were meshed differ from the fast model by more than 1 %; ` +
          'check every design before use (check --channel), or search again with more channel.wall or channel.edgeRadius',
      ];
}

/** Who meshes, and who is told. */
export interface VerifyOptions {
  readonly workplace: Workplace;
  readonly onProgress?: (done: number) => void;
}

/**
 * Solves designs of a front, and its reference, by the independent mesh as well, and sets what it gives beside the fast model.
 *
 * @param places of the designs in the front
 */
export async function verifyFront(
  brief: ResolvedBrief,
  front: FrontDocument,
  places: readonly number[],
  { workplace, onProgress }: VerifyOptions,
): Promise<FrontDocument> {
  const room = channelRoom(brief);
  const meshing = await workplace.mesh(brief, places.length + 1);
  let done = 0;
  const verify = async (design: DesignDocument, outline: Curve): Promise<VerifiedDesign> => {
    const meshed = await meshing.mesh({ nodes: meshNodes(outline, design.nodes), coarseness });
    onProgress?.(++done);
    return { ...design, meshed, difference: compareModels(design, meshed) };
  };
  try {
    const [reference, ...verified] = await Promise.all([
      verify(front.reference, referenceCurve(brief.channel.reference)),
      ...places.map((place) => verify(front.designs[place]!, outlineOf(front.designs[place]!, room))),
    ]);
    const byPlace = new Map(places.map((place, i) => [place, verified[i]!]));
    return {
      ...front,
      cautions: [...front.cautions, ...doubtsOfFront(verified)],
      designs: front.designs.map((design, i) => byPlace.get(i) ?? design),
      reference: reference!,
    };
  } finally {
    await meshing.close();
  }
}
