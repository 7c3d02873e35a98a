import type { ChannelDesign } from '@lumenfront/core';

/** The error that a user need not know of, as a share of the largest hoop stress. */
export const tolerated = 0.01;

type Trust = Pick<ChannelDesign, 'accuracy' | 'change'>;

/** What the fast model is thought to be off by around an edge. */
const estimatedError = ({ accuracy = 0, change }: Trust): number => Math.max(accuracy, Math.abs(change));

/** Whether the figures of a channel count without the mesh. What is no number does not. */
export const isTrusted = (design: Trust): boolean => estimatedError(design) <= tolerated;

const percent = (share: number) => `${(100 * share).toPrecision(2)} %`;

/** What to do where the fast model cannot be trusted. */
const remedy =
  'hold them against the mesh (check), or ask for more channel.wall or channel.edgeRadius, or for smaller channels';

/** Of the channels that a search found, those that count, and what must be known of the others. All count if none is to be trusted. */
export function trustedOf<Design extends Trust>(
  designs: readonly Design[],
): { readonly kept: readonly Design[]; readonly cautions: readonly string[] } {
  const kept = designs.filter(isTrusted);
  if (kept.length === designs.length) return { kept, cautions: [] };
  const most = percent(Math.max(...designs.map(estimatedError)));
  return kept.length > 0
    ? {
        kept,
        cautions: [
          `${designs.length - kept.length} of ${designs.length} channels that the search found were left out: around them the fast model is off by up to ${most}, beyond 1 %; ask for more channel.wall or channel.edgeRadius, or for smaller channels`,
        ],
      }
    : { kept: designs, cautions: [`the fast model is off by up to ${most} around what the search found; ${remedy}`] };
}

/** That the fast model cannot be trusted around one channel. */
export function doubtsOf(design: Trust): readonly string[] {
  return isTrusted(design)
    ? []
    : [
        `the fast model is thought to be off by ${percent(estimatedError(design))} around this channel, beyond 1 %: take the meshed values (check)`,
      ];
}
