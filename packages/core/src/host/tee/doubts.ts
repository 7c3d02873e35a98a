import { type Doubt, doubtsAbout, rounded, tellDoubts } from '../../input/index.js';
import { doubtsAboutAngles } from '../layup-field.js';
import type { FillerTeeSection } from './filler-section.js';

// Ranges: common practice, no source.
const leastSkin = 0.1;

/** What is hardly meant in the shape and the layups of a joint. */
export function fillerTeeDoubts(host: FillerTeeSection): string[] {
  return [...tellDoubts(lengths(host)), ...angles(host), ...thinSkin(host), ...reachingSupport(host)];
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
    ...length('skin.thickness', skin.thickness, leastSkin, 100),
    ...length('skin.halfSpan', skin.halfSpan, 2, 5000),
  ];
}

function angles({ overlaminate, skin }: FillerTeeSection): string[] {
  return [
    ...doubtsAboutAngles('host.overlaminate.layup', overlaminate.layup),
    ...(skin.layup === 'quasi-isotropic' ? [] : doubtsAboutAngles('host.skin.layup', skin.layup)),
  ];
}

/** Skins are at least about as thick as the feet upon them: common practice, no source. */
function thinSkin({ overlaminate: { layup, plyThickness }, skin: { thickness } }: FillerTeeSection): string[] {
  const plies = typeof plyThickness === 'number' ? layup.map(() => plyThickness) : plyThickness;
  const feet = plies.reduce((sum, one) => sum + one, 0);
  if (!(thickness < feet / 3) || thickness < leastSkin) return [];
  return [
    `host.skin.thickness: ${rounded(thickness)} mm is less than a third of the overlaminate upon it, ${rounded(feet)} mm; given in cm? Then write ${rounded(thickness * 10)}`,
  ];
}

/** The two readings differ by 40 to 90 % under pull and moment. */
function reachingSupport({ bendRadius, foot, skin, support }: FillerTeeSection): string[] {
  if (Math.abs(skin.halfSpan - bendRadius - foot.length) > 1e-6 * skin.halfSpan) return [];
  return [
    `host.foot.length: the foot reaches the support, where the skin alone is ${support === 'clamped' ? 'clamped' : 'held'} and the end of the foot is free; if the foot is held as well, take a skin that reaches beyond it and a foot that ends before the support`,
  ];
}
