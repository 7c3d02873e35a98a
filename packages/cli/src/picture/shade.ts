import type { ShapeLayer } from '@lumenfront/core';

/** What shades a layer. */
type Shaded = Pick<ShapeLayer, 'angle'>;

type Channels = readonly [red: number, green: number, blue: number];

/** Lightness falls steadily from compression to the peak, so that a grey print reads the same way. */
const STRESS_STOPS: readonly Channels[] = [
  [255, 246, 196],
  [253, 201, 100],
  [238, 129, 60],
  [196, 62, 68],
  [124, 22, 88],
  [42, 8, 64],
];
const PLY_STOPS: readonly Channels[] = [
  [243, 246, 249],
  [172, 185, 198],
];

/** Colour at `share` (0 to 1) along the stops. */
function blend(stops: readonly Channels[], share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (stops.length - 1);
  const i = Math.min(stops.length - 2, Math.floor(place));
  const channels = stops[i]!.map((from, c) => Math.round(from + (place - i) * (stops[i + 1]![c]! - from)));
  return `#${channels.map((channel) => channel.toString(16).padStart(2, '0')).join('')}`;
}

/** Stresses (MPa) that the palest and the darkest colour stand for; never equal. */
export type StressScale = readonly [low: number, high: number];

export function stressScale(stresses: readonly number[]): StressScale {
  const [least, most] = [Math.min(...stresses), Math.max(...stresses)];
  const room = Math.max(0, 1e-3 - (most - least)) / 2;
  return [least - room, most + room];
}

/** Round stresses within the scale, three to seven of them. */
export function stressTicks([low, high]: StressScale): number[] {
  const coarsest = (high - low) / 3;
  const power = 10 ** Math.floor(Math.log10(coarsest));
  const step = power * [5, 2, 1].find((factor) => factor * power <= coarsest)!;
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.floor(high / step) - first + 1 }, (_, i) =>
    Number(((first + i) * step).toPrecision(6)),
  );
}

export function stressColour([low, high]: StressScale, stress: number): string {
  return blend(STRESS_STOPS, (stress - low) / (high - low));
}

const size = ({ angle }: Shaded) => (typeof angle === 'number' ? Math.abs(angle) : angle);

/** Sizes of angles that occur, in the order of their shades. */
const kindsOf = (layers: readonly Shaded[]) =>
  [...new Set(layers.map(size))].sort((a, b) =>
    typeof a === 'number' && typeof b === 'number' ? a - b : typeof a === 'number' ? -1 : 1,
  );

/** How dark each layer is among the others, 0 to 1. */
export function layerShades(layers: readonly Shaded[]): number[] {
  const kinds = kindsOf(layers);
  return layers.map((layer) => (kinds.length < 2 ? 0.5 : kinds.indexOf(size(layer)) / (kinds.length - 1)));
}

/** Shades of layers by the size of their angle, and one legend entry per shade. */
export function shades(layers: readonly Shaded[]) {
  const kinds = kindsOf(layers);
  const dark = layerShades(layers);
  const shade = (layer: Shaded) => blend(PLY_STOPS, dark[layers.indexOf(layer)]!);
  const legend = kinds.map((kind): [string, Shaded] => {
    const members = layers.filter((layer) => size(layer) === kind);
    if (typeof kind !== 'number') return ['quasi-isotropic, smeared', members[0]!];
    const both = members.some(({ angle }) => angle === kind) && members.some(({ angle }) => angle === -kind);
    return [`plies at ${both && kind > 0 ? '±' : ''}${both ? kind : members[0]!.angle}°`, members[0]!];
  });
  return Object.assign(shade, { legend });
}

/** Colours from the palest to the darkest, in equal steps. */
export function stressRamp(count: number): string[] {
  return Array.from({ length: count }, (_, i) => blend(STRESS_STOPS, i / (count - 1)));
}
