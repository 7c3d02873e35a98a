import {
  type ChannelTask,
  type Curve,
  channelBorder,
  channelRoom,
  createCurveNodes,
  createOutlineMeasure,
  followOutline,
  hostOf,
  InputError,
  measureOutline,
  outlineOf,
  type ResolvedBrief,
  type ScatterDesignDocument,
  type ScatterFrontDocument,
  type ScatterStudyDocument,
  UnmetError,
} from '@lumenfront/core';
import type { PickedChannel } from '../channel/index.js';
import { randomFrom } from '../random.js';
import {
  findScatterFront,
  roomForScatter,
  type ScatteredChannel,
  type Spread,
  studyScatter,
} from '../scatter/index.js';
import { prepareEvaluator } from './evaluator.js';
import { headerOf } from './header.js';
import type { Workplace } from './workplace.js';

const measureNodes = 512;

/**
 * Distribution of peak, load factor and strength retained of one outline as it is made.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler
 */
export function runScatterStudy(given: ResolvedBrief, outline: Curve, workplace: Workplace): ScatterStudyDocument {
  // Channels that are made differently lie in the pocket of the one that is drawn.
  const brief = followOutline(given, outline);
  const nodes = createCurveNodes(measureNodes);
  outline.place(nodes);
  const measure = createOutlineMeasure();
  measureOutline(nodes, channelBorder(brief), measure);
  const { wall, edgeRadius } = brief.channel;
  // The channel need not keep what the brief asks for; what leaves the filler is refused by the study.
  const own = {
    wall: Math.min(wall, Math.max(0, measure.wall)),
    edgeRadius: Math.min(edgeRadius, measure.edgeRadius),
  };
  // As drawn it is judged as check judges it; made channels need a joint solved with room for them, whose peaks differ by up to 1 %.
  const { design, strengthSummary } = prepareEvaluator(brief, workplace)(outline, 'the channel');
  const strength = strengthSummary();
  const study = studyScatter(roomyTask(brief, own, workplace), outline, brief.scatter, {
    strength: brief.strength,
    allow: brief.allow,
    random: randomFrom(brief.search.seed),
  });
  const { peak, loadFactor, retained, quantilePeak, withinAllowed, startsAtEdge, samples, judged } = study;
  const whole = hostOf(brief.joint).judgesSection;
  return {
    ...headerOf('scatter', given, workplace),
    scatter: brief.scatter,
    allow: brief.allow,
    seed: brief.search.seed,
    nominal: {
      peak: design.peak,
      ...(strength !== undefined && Number.isFinite(strength.loadFactor) ? { loadFactor: strength.loadFactor } : {}),
      ...(strength !== undefined && Number.isFinite(strength.retained) ? { retained: strength.retained } : {}),
    },
    peak,
    ...(Number.isFinite(quantilePeak) ? { quantilePeak } : {}),
    ...(whole && isBounded(loadFactor) ? { loadFactor } : {}),
    ...(whole && isBounded(retained) ? { retained } : {}),
    ...(whole ? { startsAtEdge } : {}),
    withinAllowed,
    samples,
    judged,
  };
}

/**
 * The front of area against the quantile of the peak, from a front of channels as drawn.
 *
 * @param given designs of that front and, where they are known, of each family's own
 * @throws InputError for pockets that follow their channels
 * @throws UnmetError if every design loses too many samples
 */
export function runScatterFront(
  brief: ResolvedBrief,
  given: readonly PickedChannel[],
  options: {
    readonly workplace: Workplace;
    readonly evaluations: number;
    readonly onProgress: (progress: { readonly evaluations: number; readonly most: number }) => void;
  },
): ScatterFrontDocument {
  const { workplace, evaluations, onProgress } = options;
  if (hostOf(brief.joint).follows !== undefined)
    throw new InputError({
      path: 'host.pocket.heights',
      expected: 'one height of the pocket, for a front of channels as they are made',
      received: 'a range of heights',
      remedy: 'take the designs one by one (scatter --channel), or give one height (host.pocket.height)',
    });
  const task = roomyTask(brief, brief.channel, workplace);
  const evaluate = prepareEvaluator(brief, workplace);
  const room = channelRoom(brief);
  const found = findScatterFront(task, withoutDoubles(given), brief.scatter, {
    seed: brief.search.seed,
    evaluations,
    onProgress,
  });
  if (found.designs.length === 0)
    throw new UnmetError(
      `every design loses more than ${percent(1 - brief.scatter.quantile)} % of its samples, which cross themselves or each other, or come too near to the laminate: ` +
        `the best keeps ${Math.max(...found.given.map(({ judged }) => judged))} of ${found.samples}; lower the scatter, or ask for more wall (channel.wall) and search again`,
    );
  const document = ({ quantilePeak, ...one }: ScatteredChannel): ScatterDesignDocument => ({
    ...one,
    // As check and front say it: see `runScatterStudy`.
    peak: evaluate(outlineOf(one, room), 'a design').design.peak,
    ...(Number.isFinite(quantilePeak) ? { quantilePeak } : {}),
  });
  return {
    ...headerOf('scatter-front', brief, workplace),
    scatter: brief.scatter,
    allow: brief.allow,
    seed: brief.search.seed,
    designs: found.designs.map(document),
    drawn: found.given.map((one) => {
      const at = found.designs.findIndex(
        (design) => design === one || (design.area >= one.area && design.quantilePeak <= one.quantilePeak),
      );
      return { ...document(one), ...(at < 0 ? {} : { design: at + 1 }) };
    }),
    samples: found.samples,
    evaluations: found.evaluations,
  };
}

/** A task whose joint was solved with room for the deviations of channels that keep `least`. */
function roomyTask(
  brief: ResolvedBrief,
  least: { readonly wall: number; readonly edgeRadius: number },
  workplace: Workplace,
): ChannelTask {
  const { channel, scatter } = brief;
  const task = workplace.prepare({ ...brief, channel: { ...channel, ...roomForScatter(least, scatter) } });
  return { ...task, channel };
}

/** A family's own front and the front over all families share designs. */
function withoutDoubles(designs: readonly PickedChannel[]): PickedChannel[] {
  const byOutline = designs.map((design) => [JSON.stringify([design.family, design.parameters]), design] as const);
  return [...new Map(byOutline).values()];
}

const isBounded = (spread: Spread) => Object.values(spread).every(Number.isFinite);
const percent = (share: number) => String(Number((100 * share).toPrecision(3)));
