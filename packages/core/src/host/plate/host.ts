import { doubtsAbout, signed, tellDoubts } from '../../input/index.js';
import type { Host, HostKind, RoomWish } from '../contract.js';
import { type LoadDefinition, pressureLoad } from '../load.js';
import { splitting } from '../point-strength.js';
import type { PlateHost } from './plate.js';
import { reducePlate } from './reduce.js';

const stress = (sentence: string) => ({ unit: 'MPa', atLeast: -10_000, atMost: 10_000, sentence, default: 0 });

const farFieldLoad: LoadDefinition = {
  name: 'farField',
  sentence: 'Stress in a plate far from the channel (host.kind: plate).',
  sizes: {
    sx: stress('Stress along x far from the channel.'),
    sy: stress('Stress along y far from the channel.'),
    txy: stress('Shear stress far from the channel.'),
  },
  example: '{ sx: 100 }',
  // Usual sizes: common practice, no source.
  doubts: (sizes) =>
    tellDoubts(
      Object.entries(sizes).flatMap(([key, size]) =>
        size === 0 ? [] : doubtsAbout('loads.farField', key, size, ['MPa', 'GPa', 'kPa'], signed(size, 0.01, 3000)),
      ),
    ),
};

const nowhere = { distance: () => Number.POSITIVE_INFINITY };

/** An infinite sheet: nothing around the channel answers it. It shrinks freely, so that there is no cure. */
export const plateHost: HostKind<PlateHost> = {
  kind: 'plate',
  name: 'an infinite sheet',
  loads: [farFieldLoad, pressureLoad],
  places: { filler: { label: 'filler', stride: 1 } },
  families: [],
  contour: () => nowhere,
  open: openPlate,
};

function openPlate(joint: PlateHost): Host {
  const largest = { width: 10, height: 10 };
  const box = ({ mirror, largest: asked = largest }: Pick<RoomWish, 'mirror' | 'largest'>, share: number) => ({
    mirror,
    xMin: -share * asked.width,
    xMax: share * asked.width,
    yMin: -share * asked.height,
    yMax: share * asked.height,
  });
  return {
    kind: 'plate',
    material: joint.material,
    border: nowhere,
    lengthScale: 1,
    usual: { reference: { at: [0, 0], width: 1, height: 1 }, largest },
    room: (wish) => ({ ...box(wish, 1 / 2), edgeRadius: wish.edgeRadius }),
    wholeRoom: (wish) => ({ ...box(wish, 1), edgeRadius: 0 }),
    condensed: false,
    reduce: () => reducePlate(joint),
    judgesSection: false,
    strengthAt: () => splitting(joint.material),
    summary: [['joint', 'plate, an infinite sheet']],
  };
}
