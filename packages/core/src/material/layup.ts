import type { Layer, Layup, Ply } from './ply.js';

/** The angle between the fibres and the tangent of the section, 0 to 90 degrees, whichever way they lean. */
function lean(angle: number): number {
  const turned = ((angle % 180) + 180) % 180;
  return Math.min(turned, 180 - turned);
}

/**
 * Layers from a list of ply angles (degrees, filler outward; `plyThickness` in mm). Neighbouring plies that lean by the same angle, to
 * either side, are one layer: `sectionStiffness` smears them (and a lone off-axis ply with its mirror image).
 */
export function layupFromPlies(angles: readonly number[], plyThickness: number, ply: Ply): Layup {
  const layers: Layer[] = [];
  for (const angle of angles.map(lean)) {
    const last = layers.at(-1);
    if (last?.angle === angle) layers[layers.length - 1] = { ...last, thickness: last.thickness + plyThickness };
    else layers.push({ thickness: plyThickness, angle, ply });
  }
  return layers;
}

/** Total thickness, mm. */
export function layupThickness(layup: Layup): number {
  return layup.reduce((sum, layer) => sum + layer.thickness, 0);
}
