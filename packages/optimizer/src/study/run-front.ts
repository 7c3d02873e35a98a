import {
  type ChannelObjective,
  type DesignDocument,
  type FrontDocument,
  hostOf,
  InputError,
  type ResolvedBrief,
  UnmetError,
} from '@lumenfront/core';
import { findFront } from '../channel/index.js';
import { bestBySize, hypervolume } from '../front/index.js';
import { headerOf } from './header.js';
import { describeNearest } from './nearest.js';
import { costOf, sizeOf } from './objective.js';
import { frontOfChoices } from './run-choices.js';
import { type RunOptions, type Session, withSession } from './session.js';
import { trustedOf } from './trust.js';

/**
 * Searches the front of a brief, by its objective; of all that the brief leaves open, one front.
 *
 * @throws InputError for an objective of strength where the edge is all that is judged
 * @throws UnmetError if no channel keeps the constraints, with the one that is missed and by how much
 */
export async function runFront(brief: ResolvedBrief, options: RunOptions): Promise<FrontDocument> {
  return brief.choices === undefined ? frontOfOne(brief, options) : frontOfChoices(brief, options, frontOfOne);
}

async function frontOfOne(brief: ResolvedBrief, options: RunOptions): Promise<FrontDocument> {
  const { objective } = brief.search;
  refuseStrengthOfEdge(brief);
  const search = async ({ reference, evaluator, search, designs: reported }: Session): Promise<FrontDocument> => {
    const found = await findFront(evaluator, search);
    if (found.designs.length === 0) throw new UnmetError(describeNearest(brief, found.nearest));
    const { evaluations, runs } = found;
    const header = headerOf('front', brief, options.workplace);
    const families = Object.entries(found.families);
    // All at once, so that no worker waits for another's last.
    const all = await reported([...found.designs, ...families.flatMap(([, members]) => members)]);
    const { kept, cautions } = trustedOf(all.splice(0, found.designs.length));
    const designs = undominated(kept, objective);
    const referencePoint = referencePointOf(objective, reference) ?? found.referencePoint;
    const points = designs.map((one) => [-sizeOf(objective, one), costOf(objective, one)]);
    return {
      ...header,
      cautions: [...header.cautions, ...cautions],
      designs,
      families: Object.fromEntries(
        families.map(([name, { length }]) => [name, undominated(trustedOf(all.splice(0, length)).kept, objective)]),
      ),
      reference,
      allow: brief.allow,
      search: {
        seed: search.seed,
        evaluations,
        objective,
        hypervolume: hypervolume(points, [-referencePoint[0], referencePoint[1]]),
        referencePoint,
        runs,
      },
    };
  };
  return withSession(brief, options, search);
}

/** Costs beyond this many times that of the brief's reference channel count for nothing in a hypervolume. */
const dearest = 3;

/** What a front's hypervolume is measured from: the brief alone determines it, so that any two runs of it can be compared. None where nothing is left of the reference channel. */
function referencePointOf(
  objective: ChannelObjective,
  reference: DesignDocument,
): readonly [number, number] | undefined {
  const cost = dearest * costOf(objective, reference);
  return cost > 0 && Number.isFinite(cost) ? [0, cost] : undefined;
}

/** Of a host whose edge is all that is judged, no command tells what it keeps of its strength. */
function refuseStrengthOfEdge({ joint, search: { objective } }: ResolvedBrief): void {
  if (objective.cost === 'peak' || hostOf(joint).judgesSection) return;
  throw new InputError({
    path: 'search.against',
    expected: `peak, in a ${joint.kind}`,
    received: objective.cost === 'loadFactor' ? 'load-factor' : 'strength-retained',
    remedy: 'ask for peak (search.against, --against), or give a host whose strength is judged, such as a tee',
  });
}

/** Evaluated again, a design can turn out no better than a larger one. By growing size. */
function undominated(designs: readonly DesignDocument[], objective: ChannelObjective): DesignDocument[] {
  return bestBySize(
    designs,
    (design) => sizeOf(objective, design),
    (design) => costOf(objective, design),
  );
}
