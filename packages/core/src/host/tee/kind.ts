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

const hasChannel = (part: unknown): boolean => typeof part === 'object' && part !== null && 'channel' in part;

const knowsInFiller = ({ filler, fillerChannel }: Written): boolean =>
  fillerChannel !== undefined || hasChannel(filler);
const isOpenPocket = ({ pocket }: Written): boolean => pocket !== undefined && !hasChannel(pocket);

/** Where the channel that is looked for lies, by which the code of tees comes in parts; in the filler beside a known one in a pocket it takes all. */
export const liesInFiller = (tee: object): boolean => (tee as Written).pocket === undefined && !knowsInFiller(tee);
export const liesInPocket = (tee: object): boolean => isOpenPocket(tee) && !knowsInFiller(tee);
export const liesBesideAnother = (tee: object): boolean => isOpenPocket(tee) && knowsInFiller(tee);

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
