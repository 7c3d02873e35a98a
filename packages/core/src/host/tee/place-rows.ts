import type { SectionPoint } from '../place.js';

/**
 * Section points in rows along interfaces, layers and the middles of layers: numbers of points that follow each other. The bend's face to
 * the filler is left out for the interface, the filler inside its border for the interfaces around it.
 */
export function placeRows(points: readonly SectionPoint[], bendRadius: number): readonly (readonly number[])[] {
  const R = bendRadius;
  const rows = new Map<string, number[]>();
  points.forEach(({ place, layer, x, y }, p) => {
    const radius = Math.hypot(x - R, y - R);
    if (place === 'filler' || (place === 'bend' && radius > (1 - 1e-6) * R)) return;
    const across = place === 'bend' ? radius : place === 'web' ? x : place === 'arc-interface' ? R : y;
    const row = `${place} ${layer} ${(across / R).toFixed(6)}`;
    const known = rows.get(row);
    if (known === undefined) rows.set(row, [p]);
    else known.push(p);
  });
  return [...rows.values()];
}
