import {
  type HostKind,
  hostKind,
  type LaminateJoint,
  type PlateHost,
  type SectionJoint,
  type TeeJoint,
} from '../packages/core/src/host/index.js';
import { checkHost, type HostSample } from './fixtures/host-checks.js';
import { drapedLaminate } from './fixtures/laminates.js';
import { pocketInBend } from './fixtures/pocket-tees.js';
import { discJoint } from './fixtures/section-joints.js';
import { referenceJoint, referencePly } from './fixtures/tee-reference.js';

const longer = (layup: TeeJoint['skin'], scale: number) =>
  layup.map((layer) => ({ ...layer, thickness: scale * layer.thickness }));

checkHost<TeeJoint>({
  host: hostKind('tee') as HostKind<TeeJoint>,
  joint: (scale) => ({
    ...referenceJoint,
    bendRadius: scale * referenceJoint.bendRadius,
    webHeight: scale * referenceJoint.webHeight,
    footLength: scale * referenceJoint.footLength,
    skinHalfSpan: scale * referenceJoint.skinHalfSpan,
    overlaminate: longer(referenceJoint.overlaminate, scale),
    skin: longer(referenceJoint.skin, scale),
  }),
  wall: 0.12,
  edgeRadius: 0.12,
  channels: [
    { at: [0.1, 1.2], halfAxes: [0.4, 0.3], turn: 0.5 },
    { at: [1.2, 0.6], halfAxes: [0.5, 0.35], turn: -0.1 },
  ],
  scales: [1e-3, 1e3],
  loads: {
    pull: { force: 100 },
    side: { force: 10 },
    moment: { moment: 50 },
    cure: { deltaT: -155 },
    pressure: { pressure: 5 },
  },
  // Across the web, above the bends: what hangs on its top.
  cut: () => ({ from: [2, 17], to: [-2, 17], carries: { pull: [0, 100], side: [10, 0] } }),
});

checkHost<PlateHost>({
  host: hostKind('plate') as HostKind<PlateHost>,
  joint: () => ({ kind: 'plate', material: referencePly }),
  wall: 0,
  edgeRadius: 0.1,
  channels: [
    { at: [0.3, -0.2], halfAxes: [1, 0.5], turn: 0.4 },
    { at: [0, 0], halfAxes: [2, 0.4], turn: -0.2 },
  ],
  scales: [1e-3, 1e3],
  loads: { farField: { sx: 10, sy: -4, txy: 3 }, pressure: { pressure: 5 } },
  cut: ({ y }) => {
    const [bottom, top] = [Math.min(...y), Math.max(...y)];
    return { from: [1.5, bottom], to: [1.5, top], carries: { farField: [10 * (top - bottom), 3 * (top - bottom)] } };
  },
});

const laminateLoads = {
  stretch: { strain: 0, force: 50 },
  bend: { moment: 100 },
  shear: { force: 20 },
  flatwise: { stress: 2 },
  cure: { deltaT: -100 },
  pressure: { pressure: 1 },
};

const draped: HostSample<LaminateJoint> = {
  host: hostKind('laminate') as HostKind<LaminateJoint>,
  joint: drapedLaminate,
  wall: 0.05,
  edgeRadius: 0.1,
  channels: [
    { at: [0.1, 0.77], halfAxes: [0.2, 0.15], turn: 0.3 },
    { at: [-0.2, 0.75], halfAxes: [0.35, 0.15], turn: 0.05 },
  ],
  scales: [1e3],
  loads: laminateLoads,
  // Across the laminate, beside the pocket.
  cut: () => ({ from: [3, 0], to: [3, 1.5], carries: { stretch: [50, 0], shear: [0, 20] } }),
};
checkHost(draped, ['long']);
/** One cell of an endless row; shear is refused of briefs, and the cell's own all the same. */
checkHost<LaminateJoint>(
  {
    ...draped,
    joint: (scale) => ({ ...drapedLaminate(scale), width: 4.4 * scale, row: true }),
    // Its size changes what the laminate's above does.
    scales: [],
    cut: () => ({ from: [2, 0], to: [2, 1.5], carries: { stretch: [50, 0], shear: [0, 20] } }),
  },
  ['long'],
);

checkHost<SectionJoint>(
  {
    host: hostKind('section') as HostKind<SectionJoint>,
    joint: discJoint,
    wall: 0.15,
    edgeRadius: 0.1,
    channels: [
      { at: [0.5, -0.3], halfAxes: [0.7, 0.35], turn: 0.4 },
      { at: [-0.4, 0.9], halfAxes: [0.5, 0.4], turn: 0.2 },
    ],
    scales: [1e-3],
    loads: {
      cure: { deltaT: -100 },
      pressure: { pressure: 5 },
      lift: { force: 100 },
      spread: { force: 50 },
    },
    // Across the block, above the filler: what pulls on its top, and the upper quarter of what spreads its sides.
    cut: () => ({ from: [8, 4], to: [-8, 4], carries: { lift: [0, 100], spread: [0, 2.5] } }),
  },
  ['long'],
);

/** A lens in the middle of the bend: in its frame, turned by 45 degrees against the joint and touching its face to the filler. */
const inBend: HostSample<TeeJoint> = {
  host: hostKind('tee') as HostKind<TeeJoint>,
  joint: pocketInBend,
  wall: 0.05,
  edgeRadius: 0.1,
  channels: [
    { at: [0.1, 0.52], halfAxes: [0.2, 0.15], turn: 0.3 },
    { at: [-0.2, 0.5], halfAxes: [0.35, 0.15], turn: 0.05 },
  ],
  scales: [1e-3],
  loads: {
    pull: { force: 100 },
    side: { force: 10 },
    moment: { moment: 50 },
    cure: { deltaT: -100 },
    pressure: { pressure: 5 },
  },
  // Across the web, just above the bends, from right to left.
  cut: () => {
    const [c, s] = [Math.SQRT1_2, Math.SQRT1_2];
    const inFrame = (x: number, y: number) => [c * x - s * y, s * x + c * y] as const;
    const [x0, y0] = [5 - 5 * s, 5 - 5 * c];
    const from = inFrame(1.5 - x0, 5.5 - y0);
    const to = inFrame(-1.5 - x0, 5.5 - y0);
    return { from, to, carries: { pull: inFrame(0, 100), side: inFrame(10, 0) } };
  },
};
checkHost<TeeJoint>(inBend, ['long']);
