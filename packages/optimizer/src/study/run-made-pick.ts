import {
  channelRoom,
  InputError,
  type MadeDocument,
  outlineOf,
  type PickDocument,
  type ResolvedBrief,
  UnmetError,
} from '@lumenfront/core';
import { refuseChoices } from './refuse-choices.js';
import { runPick } from './run-pick.js';
import { runScatterStudy } from './run-scatter.js';
import type { RunOptions } from './session.js';
import type { Workplace } from './workplace.js';

/** Searches at most: each corrects the peak that the drawn channel may have by what scatter made of the last one. */
const mostSearches = 4;
/** The allowed peak is met within so much of it. */
const closeness = 0.01;
/** What the wall and the edge radius must grow by where too many made channels come too near to the laminate, in standard deviations of scatter. */
const roomSteps = 1;

/** What scatter leaves of a picked channel. */
export function judgeMade(
  brief: ResolvedBrief,
  { design }: Pick<PickDocument, 'design'>,
  workplace: Workplace,
): MadeDocument {
  const outline = outlineOf(design, channelRoom(brief));
  const { withinAllowed, quantilePeak, samples } = runScatterStudy(brief, outline, workplace);
  return {
    withinAllowed,
    quantile: brief.scatter.quantile,
    ...(quantilePeak === undefined ? {} : { peak: quantilePeak }),
    samples,
  };
}

/**
 * Searches the largest channel of which the brief's quantile of made ones stay within the allowed peak: it picks within a lower peak, as drawn, and
 * with a little more wall where made channels come too near to the laminate, until that holds.
 *
 * @throws UnmetError if no such channel is found, with how closely
 */
export async function runMadePick(brief: ResolvedBrief, options: RunOptions): Promise<PickDocument> {
  const { workplace, signal } = options;
  const { allow, scatter, channel } = brief;
  refuseChoices(brief);
  let drawn = allow;
  let room = 0;
  let best: PickDocument | undefined;
  let last: MadeDocument | undefined;
  for (let k = 0; k < mostSearches && !signal?.aborted; k++) {
    const wish: ResolvedBrief = {
      ...brief,
      allow: drawn,
      channel: { ...channel, wall: channel.wall + room, edgeRadius: channel.edgeRadius + room },
    };
    const pick = await runPick(wish, options).catch((error) => {
      // There is no such channel, or no room for its walls: of what nobody but this search has asked for.
      if (wish.allow === allow && room === 0) throw error;
      if (error instanceof UnmetError || error instanceof InputError) return undefined;
      throw error;
    });
    if (pick === undefined) break;
    last = judgeMade(brief, pick, workplace);
    if (last.peak === undefined) {
      room += roomSteps * Math.hypot(scatter.outline, scatter.position);
      continue;
    }
    const keeps = last.withinAllowed >= scatter.quantile;
    const found: PickDocument = { ...pick, allow, made: last };
    if (keeps && (best === undefined || found.design.area > best.design.area)) best = found;
    if (keeps && last.peak >= (1 - closeness) * allow) break;
    // The quantile grows about as the peak as drawn does.
    drawn *= ((1 - closeness / 2) * allow) / last.peak;
  }
  if (best !== undefined) return best;
  const share = (value: number) => `${Number((100 * value).toPrecision(3))} %`;
  throw new UnmetError(
    `no channel was found of which ${share(scatter.quantile)} of made ones stay within ${Number(allow.toPrecision(4))} MPa: ` +
      `of the last one ${share(last?.withinAllowed ?? 0)} do; allow more (allow, --allow) or lower the scatter`,
  );
}
