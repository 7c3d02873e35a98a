import { expectation, list, quantity, rounded, type Zod } from '../input/index.js';
import { parseLayup } from '../material/index.js';

const plyAngle = { unit: 'deg', atLeast: -90, atMost: 90 } as const;
const mostPlies = 200;

/** A list of ply angles, or the notation of the trade. */
export const layup = (z: Zod, sentence: string) =>
  z.meta(
    z.union(
      [
        list(
          z,
          quantity(z, {
            ...plyAngle,
            sentence: 'Angle of one ply from the tangent of the section: 0 in the section, 90 along the channel.',
          }),
          { of: 'angles', atLeast: 1, atMost: mostPlies, sentence },
        ),
        z.transform(
          z.meta(z.string(), {
            description: 'The same in the notation of the trade: [45/0/-45/90]s, [90_2/0_2]s, [±45/0].',
          }),
          (text, context) => {
            const angles = parseLayup(text);
            const sound = angles?.every((angle) => Math.abs(angle) <= plyAngle.atMost) && angles.length <= mostPlies;
            if (angles !== undefined && sound) return angles;
            context.issues.push({ code: 'custom', message: 'not a layup', input: text });
            return z.NEVER;
          },
        ),
      ],
      {
        error: ({ input }) =>
          expectation(
            `1 to ${mostPlies} angles of -90 to 90 degrees, as a list or in the notation of the trade`,
            Array.isArray(input) ? 'add or remove entries' : 'write, for example, [45, 0, -45, 90] or [45/0/-45/90]s',
          ),
      },
    ),
    { description: `${sentence} A list of angles, or text such as [45/0/-45/90]s. Unit: deg.`, unit: 'deg' },
  );

/** Angles that all lie within half pi, and are not all whole, were meant in radians. */
export function doubtsAboutAngles(path: string, angles: readonly number[]): string[] {
  const radians = angles.every((angle) => Math.abs(angle) < 1.6) && angles.some((angle) => !Number.isInteger(angle));
  if (!radians) return [];
  const degrees = angles.map((angle) => Math.round((angle * 180) / Math.PI));
  return [
    `${path}: [${angles.map(rounded).join(', ')}] turns its plies by hardly a degree; given in radians? Then write [${degrees.join(', ')}]`,
  ];
}
