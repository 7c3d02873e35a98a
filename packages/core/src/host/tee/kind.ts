import { layupThickness } from '../../material/index.js';
import type { Host, HostKind } from '../contract.js';
import { teeLoads } from './loads.js';
import { type TeePlace, teePlaces } from './places.js';
import type { TeeJoint } from './tee.js';

/** Families of outlines that only a tee's filler has. */
export const teeFamilyNames = ['inset'] as const;

/** What tees have in common, wherever the channel lies. */
export const teeKind = {
  kind: 'tee',
  name: 'a T-joint',
  loads: teeLoads,
  places: teePlaces,
  families: teeFamilyNames,
} as const satisfies Partial<HostKind<TeeJoint>> & { readonly places: Readonly<Record<TeePlace, unknown>> };

/** Of a joint, or of the host of a brief as it is written. */
type Written = Partial<Readonly<Record<'pocket' | 'filler' | 'fillerChannel', unknown>>>;

const hasKnownChannel = ({ filler, fillerChannel }: Written): boolean =>
  fillerChannel !== undefined || (typeof filler === 'object' && filler !== null && 'channel' in filler);

/** Where the channel that is looked for lies, by which the code of tees comes in parts. */
export const liesInFiller = (tee: object): boolean => (tee as Written).pocket === undefined && !hasKnownChannel(tee);
export const liesInPocket = (tee: object): boolean => (tee as Written).pocket !== undefined && !hasKnownChannel(tee);
export const liesBesideAnother = (tee: object): boolean =>
  (tee as Written).pocket !== undefined && hasKnownChannel(tee);

const number = (value: number) => String(Number(value.toPrecision(6)));

export function teeSummary(joint: TeeJoint): Host['summary'] {
  const angles = (layup: TeeJoint['skin']) => `[${layup.map((layer) => layer.angle).join(', ')}]`;
  return [
    ['joint', `tee, bend radius ${number(joint.bendRadius)} mm, ${joint.support} ends`],
    ['overlaminate', `${number(layupThickness(joint.overlaminate))} mm, ${angles(joint.overlaminate)}`],
    [
      'skin',
      `${number(layupThickness(joint.skin))} mm, ${angles(joint.skin)}, half span ${number(joint.skinHalfSpan)} mm`,
    ],
    ['web, foot', `${number(joint.webHeight)} mm, ${number(joint.footLength)} mm`],
  ];
}
