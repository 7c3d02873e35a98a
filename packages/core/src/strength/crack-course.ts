import { aroundChannel, hostKind, hostOf, type Joint } from '../host/index.js';
import type { Border, CurveNodes } from '../outline/index.js';
import type { SolvedEdge } from '../stress/index.js';
import type { FirstFailure } from './first-failure.js';
import type { StrengthModel } from './joint-strength.js';
import type { FailureStress } from './section-strength.js';

/** How a crack is taken to go from where a joint fails first: it stands at the channel's own edge, or goes straight, kinks out of an interface, or along it. */
export type CrackPath = 'edge' | 'straight' | 'kinking' | 'along';

/** The path of a crack, and whether it meets the channel. */
export interface CrackCourse {
  readonly path: CrackPath;
  readonly meets: boolean;
}

/**
 * Which way a crack goes from where a joint fails first, in the stress of the case at its load factor; that it stays straight is an assumption.
 *
 * - What splits in the material around the channel goes across the largest principal stress (Erdogan & Sih, J. Basic Engng 85 (1963) 519-527).
 * - An interface of that material parts by a crack in it. Where shear acts, one of its tips kinks towards the channel's side, by `kinkAngle`; whether it
 *   does depends on how tough both are (He & Hutchinson, J. Appl. Mech. 56 (1989) 270-278), which no brief tells: the kink is taken, as it alone can meet
 *   the channel, which keeps its wall from the interface. A closed crack slides without friction.
 * - Anything else that delaminates, and an interface without shear, parts along itself.
 *
 * `undefined` where fibres kink, a ply splits, or nothing fails: nothing is said there.
 *
 * @param strength has judged `edge` last
 */
export function crackCourse(
  joint: Joint,
  strength: Pick<StrengthModel, 'stressAt'>,
  edge: SolvedEdge,
  loadCase: number,
  first: FirstFailure,
): CrackCourse | undefined {
  const { place, criterion, factor, x, y } = first;
  if (place === 'edge') return { path: 'edge', meets: true };
  if (place === 'none' || !Number.isFinite(factor)) return undefined;
  const splits = criterion === 'splitting' && place === aroundChannel;
  const parts = criterion === 'delamination';
  if (!splits && !parts) return undefined;
  const inner = hostKind(joint.kind).places[place]?.between?.[0].place;
  if (parts && inner !== aroundChannel) return { path: 'along', meets: false };
  const stress = strength.stressAt(loadCase, first);
  if (stress === undefined) return undefined;
  const { border } = hostOf(joint);
  const meets = (angle: number) => meetsChannel(edge, border, { x, y, dx: Math.cos(angle), dy: Math.sin(angle) });
  if (splits) {
    const across = acrossTension(stress);
    return { path: 'straight', meets: meets(across) || meets(across + Math.PI) };
  }
  if (stress.s === 0) return { path: 'along', meets: false };
  return { path: 'kinking', meets: meets(kinkDirection(stress, border, x, y)) };
}

/**
 * Angle by which a crack leaves its line, radians, 0 to 70.5 degrees: where the hoop tension around its tip is largest, with the intensities in the ratio
 * of the tension and shear that a short crack sees (Erdogan & Sih as above; what unlike materials change of that ratio is left out).
 */
export function kinkAngle(tension: number, shear: number): number {
  const opening = Math.max(0, tension);
  const sliding = Math.abs(shear);
  if (sliding === 0) return 0;
  return 2 * Math.atan2(2 * sliding, opening + Math.hypot(opening, Math.sqrt(8) * sliding));
}

/** Half the angle of Mohr's circle is that of the largest tension, from the tangent; a crack runs across it. */
function acrossTension({ n, t, s, normalAngle }: FailureStress): number {
  return normalAngle + Math.atan2(2 * s, t - n) / 2;
}

/** Of the two tips the one that kinks to the side of the channel. */
function kinkDirection({ n, s, normalAngle }: FailureStress, border: Border, x: number, y: number): number {
  const outward = [Math.cos(normalAngle), Math.sin(normalAngle)] as const;
  const side = border.distance(x + probe * outward[0], y + probe * outward[1]) > 0 ? 1 : -1;
  // From the tangent, which points clockwise of the normal: positive shear turns the tip ahead of it away from the normal.
  const angle = kinkAngle(n, s);
  const along = -side * Math.sign(s) * Math.cos(angle);
  return normalAngle - Math.PI / 2 + Math.atan2(side * Math.sin(angle), along);
}

/** Steps off an interface by which its sides are told apart, mm: far above rounding, far below a ply. */
const probe = 1e-3;

/** Places of a way that must lie inside the border, and by how much one may miss it, mm: points on an interface lie on it up to a mesh's arc. */
const looks = 100;
const slack = 0.01;

/** From a point on in a direction of length 1, mm. */
interface Ray {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Whether a ray meets a closed edge, or one of the others, before it leaves the material. */
function meetsChannel({ each, several }: SolvedEdge, border: Border, ray: Ray): boolean {
  const { x, y, dx, dy } = ray;
  const image = { ...ray, x: -x, dx: -dx };
  const ways = each.flatMap(({ nodes }) => [wayTo(nodes, ray), ...(several ? [wayTo(nodes, image)] : [])]);
  const way = Math.min(...ways);
  if (way === Number.POSITIVE_INFINITY) return false;
  for (let k = 1; k < looks; k++) {
    const along = (way * k) / looks;
    if (border.distance(x + along * dx, y + along * dy) < -slack) return false;
  }
  return true;
}

/** How far a ray goes until it meets a closed edge, mm; Infinity: it does not. */
function wayTo({ count, x: X, y: Y }: CurveNodes, { x, y, dx, dy }: Ray): number {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const k = (j + 1) % count;
    const [left, right] = [dx * (Y[j]! - y) - dy * (X[j]! - x), dx * (Y[k]! - y) - dy * (X[k]! - x)];
    if (left > 0 === right > 0) continue;
    const share = left / (left - right);
    const ahead = dx * (X[j]! + share * (X[k]! - X[j]!) - x) + dy * (Y[j]! + share * (Y[k]! - Y[j]!) - y);
    if (ahead > 0 && ahead < least) least = ahead;
  }
  return least;
}
