import {
  type ChannelRow,
  type Curve,
  createCurveNodes,
  type DeliveredChannel,
  type DeliveryDocument,
  deliver,
  type EdgeLimit,
  type ResolvedBrief,
  supplyLimit,
  UnmetError,
  withSupply,
} from '@lumenfront/core';
import { prepareEvaluator } from './evaluator.js';
import { headerOf } from './header.js';
import { referenceCurve } from './reference.js';
import type { Workplace } from './workplace.js';

/** Enough for flow to 1e-6 and for a sensor to 0.01 %. */
const nodeCount = 512;

/**
 * What one outline delivers in the joint of a brief, beside the brief's reference channel.
 *
 * @throws InputError for an outline that crosses itself or leaves the filler
 */
export function runDelivery(brief: ResolvedBrief, outline: Curve, workplace: Workplace): DeliveryDocument {
  const { delivery, allow } = brief;
  const { group, row } = brief.channel;
  const connected = (group ?? row)?.connected;
  const supplied = group?.connected ?? (row?.connected === 'series' ? 'series' : undefined);
  const underSupply = withSupply(brief, delivery.during);
  const evaluate = prepareEvaluator(underSupply, workplace);
  const inService = prepareEvaluator(brief, { ...workplace, note: () => {} });
  const delivered = (curve: Curve, what: string): DeliveredChannel => {
    const edge = knownLimit(() => supplyLimit(evaluate(curve, what).design, allow), what, workplace);
    const nodes = createCurveNodes(nodeCount);
    curve.place(nodes);
    const repair = edge === undefined ? undefined : inService(curve, what).repair(delivery.agents);
    return {
      ...deliver(nodes, delivery, edge, supplied, group?.number),
      ...(edge === undefined ? {} : { edge }),
      ...(repair === undefined ? {} : { repair }),
    };
  };
  const channel = delivered(outline, 'the channel');
  const reference = delivered(referenceCurve(brief.channel.reference), 'the reference channel');
  return {
    ...headerOf('deliver', brief, workplace),
    ...(connected === undefined ? {} : { connected }),
    ...(group === undefined ? {} : { number: group.number }),
    channel,
    reference,
    ...(row === undefined ? {} : { perMetre: inMetre(row, channel) }),
    ratio: {
      area: channel.flow.area / reference.flow.area,
      flow: channel.flow.conductance / reference.flow.conductance,
    },
    delivery,
    allow,
  };
}

const metre = 1000;

/** What all channels in a metre of width deliver together. */
function inMetre(
  { pitch, connected }: ChannelRow,
  { flow, cooling: { flowRate, heatCapacityRate, wall } }: DeliveredChannel,
): NonNullable<DeliveryDocument['perMetre']> {
  const channels = metre / pitch;
  const circuits = connected === 'series' ? channels / 2 : channels;
  return {
    ...{ pitch, circuits, area: channels * flow.area },
    ...{ flowRate: circuits * flowRate, heatCapacityRate: circuits * heatCapacityRate },
    ...(wall === undefined ? {} : { wallRate: circuits * wall.rate }),
  };
}

/** Where the stress model does not hold, a channel still has its flow; then nothing is known of what its edge bears. */
function knownLimit(limit: () => EdgeLimit, what: string, { note }: Workplace): EdgeLimit | undefined {
  try {
    return limit();
  } catch (error) {
    if (!(error instanceof UnmetError)) throw error;
    note(`note: what pressure the edge of ${what} bears is not known: ${error.message}`);
    return undefined;
  }
}
