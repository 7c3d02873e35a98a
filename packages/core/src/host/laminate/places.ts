import type { Ply } from '../../material/index.js';
import type { PlaceDefinition, PointStrength, SectionPoint } from '../place.js';
import { bonded, delaminating, splitting } from '../point-strength.js';
import type { LaminateJoint } from './laminate.js';
import type { PocketForm } from './pocket.js';

/** A place of a laminate. */
export type LaminatePlace = 'filler' | 'pocket-interface' | 'next-ply' | 'laminate';

/** Strides: a tenth of the pocket's height and more. */
export const laminatePlaces: Readonly<Record<LaminatePlace, PlaceDefinition>> = {
  filler: { label: 'filler', stride: 1 },
  'pocket-interface': {
    label: 'pocket/ply',
    stride: 4,
    between: [{ place: 'filler', layer: -1 }, { place: 'laminate' }],
  },
  'next-ply': { label: 'ply at the pocket', stride: 4, zone: 'laminate' },
  laminate: { label: 'laminate', stride: 6 },
};

/**
 * The resin splits under its largest principal stress. At its border and between plies the weaker side delaminates. Plies next to the
 * pocket: what runs along the channel splits across its fibres; what crosses it kinks where it drapes. Other in-plane failure of
 * plies is not judged: materials carry no such strengths.
 */
export function laminateStrengthAt(
  joint: Pick<LaminateJoint, 'layup' | 'resin'>,
  form: PocketForm,
): (point: SectionPoint) => PointStrength {
  return ({ place, layer, x, y }) => {
    if (place === 'filler') return splitting(joint.resin);
    const { ply, angle } = joint.layup[layer]!;
    if (place === 'pocket-interface') return bonded(joint.resin, ply);
    if (place === 'laminate') return delaminating(ply);
    if (angle === 90) return splitting(ply);
    return angle === 0 ? { ...delaminating(ply), kinking: kinkStrength(ply, form.angle(x, y)) } : delaminating(ply);
  };
}

/** Below this angle (0.6 degrees) fibres count as straight, and are not judged: what they bear then is a strength of the ply that materials do not carry. */
const straight = 0.01;

/**
 * Stress along fibres that lean by `angle` at which they kink, MPa: `tau / (gamma + angle)`, the shear stress at which the ply yields and
 * the strain there (Budiansky & Fleck, J. Mech. Phys. Solids 41 (1993) 183-211; formula from memory). A first estimate: interlaminar
 * strength stands for the yield, and the strain is what the shear modulus makes of it.
 */
export function kinkStrength({ interlaminarShear, G12 }: Ply, angle: number): number {
  const lean = Math.abs(angle);
  return lean < straight ? Number.POSITIVE_INFINITY : interlaminarShear / (interlaminarShear / G12 + lean);
}
