import { type Doubt, doubtsAbout, tellDoubts } from '../../input/index.js';
import { doubtsAboutAngles } from '../layup-field.js';
import type { FillerTeeSection } from './filler-section.js';

// Ranges: common practice, no source.

/** What is hardly meant in the shape and the layups of a joint. */
export function fillerTeeDoubts(host: FillerTeeSection): string[] {
  return [...tellDoubts(lengths(host)), ...angles(host), ...reachingSupport(host)];
}

function lengths({ bendRadius, overlaminate, web, foot, skin }: FillerTeeSection): Doubt[] {
  const { plyThickness } = overlaminate;
  const length = (key: string, value: number, from: number, to: number) =>
    doubtsAbout('host', key, value, 'mm', [from, to]);
  const plies = typeof plyThickness === 'number' ? [plyThickness] : plyThickness;
  return [
    ...length('bendRadius', bendRadius, 0.5, 200),
    ...plies.flatMap((thickness, i) =>
      length(`overlaminate.plyThickness${typeof plyThickness === 'number' ? '' : `[${i}]`}`, thickness, 0.015, 5),
    ),
    ...length('web.height', web.height, 1, 2000),
    ...length('foot.length', foot.length, 0.5, 2000),
    ...length('skin.thickness', skin.thickness, 0.1, 100),
    ...length('skin.halfSpan', skin.halfSpan, 2, 5000),
  ];
}

function angles({ overlaminate, skin }: FillerTeeSection): string[] {
  return [
    ...doubtsAboutAngles('host.overlaminate.layup', overlaminate.layup),
    ...(skin.layup === 'quasi-isotropic' ? [] : doubtsAboutAngles('host.skin.layup', skin.layup)),
  ];
}

/** The two readings differ by 40 to 90 % under pull and moment. */
function reachingSupport({ bendRadius, foot, skin, support }: FillerTeeSection): string[] {
  if (skin.halfSpan - bendRadius - foot.length > 1e-6 * skin.halfSpan) return [];
  return [
    `host.foot.length: the foot reaches the support, where the skin alone is ${support === 'clamped' ? 'clamped' : 'held'} and the end of the foot is free; if the foot is held as well, take a skin that reaches beyond it and a foot that ends before the support`,
  ];
}
