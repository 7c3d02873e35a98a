import { doubtsAbout, tellDoubts } from '../../input/index.js';
import type { BriefData } from '../schema.js';

// Ranges: common practice, no source. Fibres that are pulled out or burnt out begin at some hundredths of a millimetre.

/** What is hardly meant in the channels that are looked for, how they are judged and how they scatter. Nothing scatters by 0. */
export function implausibleChannel(
  { wall, edgeRadius, reference }: BriefData['channel'],
  { edge }: BriefData['strength'],
  { outline, position }: BriefData['scatter'],
): string[] {
  const about = (of: string, key: string, value: number | undefined, from: number, to: number) =>
    value ? doubtsAbout(of, key, value, 'mm', [from, to]) : [];
  return tellDoubts([
    ...about('channel', 'wall', wall, 0.005, 50),
    ...about('channel', 'edgeRadius', edgeRadius, 0.005, 50),
    ...about('channel', 'reference.width', reference?.width, 0.01, 100),
    ...about('channel', 'reference.height', reference?.height, 0.01, 100),
    ...about('strength.edge', 'distance', edge === 'peak' ? undefined : edge.distance, 0.005, 5),
    ...about('scatter', 'outline', outline, 2e-4, 1),
    ...about('scatter', 'position', position, 2e-4, 3),
  ]);
}
