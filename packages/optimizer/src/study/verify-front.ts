import {
  briefOfChoice,
  type Curve,
  channelRoom,
  type DesignDocument,
  type FrontDocument,
  findChoice,
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
  let done = 0;
  const told = () => onProgress?.(++done);
  const verified = new Map<DesignDocument, VerifiedDesign>();
  const wanted = [front.reference, ...places.map((place) => front.designs[place]!)];
  for (const { brief: one, has } of sectionsOf(brief)) {
    const designs = wanted.filter(has);
    if (designs.length === 0) continue;
    const room = channelRoom(one);
    const curves = designs.map((design) =>
      design === front.reference ? referenceCurve(one.channel.reference) : outlineOf(design, room),
    );
    (await meshedDesigns(one, designs, curves, { workplace, told })).forEach((design, i) => {
      verified.set(designs[i]!, design);
    });
  }
  return {
    ...front,
    cautions: [...front.cautions, ...doubtsOfFront(wanted.slice(1).map((design) => verified.get(design)!))],
    designs: front.designs.map((design) => verified.get(design) ?? design),
    reference: verified.get(front.reference)!,
  };
}

/** The sections that a brief asks for, and which designs are of them. */
function sectionsOf(brief: ResolvedBrief): { readonly brief: ResolvedBrief; has(design: DesignDocument): boolean }[] {
  if (brief.choices === undefined) return [{ brief, has: () => true }];
  return brief.choices.map((choice) => ({
    brief: briefOfChoice(brief, choice),
    has: (design) => design.choice !== undefined && findChoice(brief, design.choice) === choice,
  }));
}

async function meshedDesigns(
  brief: ResolvedBrief,
  designs: readonly DesignDocument[],
  curves: readonly Curve[],
  { workplace, told }: { readonly workplace: Workplace; told(): void },
): Promise<VerifiedDesign[]> {
  const meshing = await workplace.mesh(brief, designs.length);
  try {
    return await Promise.all(
      designs.map(async (design, i) => {
        const meshed = await meshing.mesh({ nodes: meshNodes(curves[i]!, design.nodes), coarseness });
        told();
        return { ...design, meshed, difference: compareModels(design, meshed) };
      }),
    );
  } finally {
    await meshing.close();
  }
}
