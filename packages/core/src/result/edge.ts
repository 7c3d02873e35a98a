import type { Zod } from '../input/index.js';
import { byName, figure, flag, group, listOf, type Of, point, text } from './figure.js';

function extremes(z: Zod) {
  return {
    peak: figure(z, 'MPa', 'Largest hoop tension at the edge.'),
    at: point(z, 'Where it is.'),
    least: figure(z, 'MPa', 'Smallest hoop stress at the edge.'),
  };
}

export function edgeExtremes(z: Zod) {
  return group(z, extremes(z), 'Stress around the edge under one load or case.');
}

/** Peak hoop stress of an edge, MPa, where it stands, mm, and the least, MPa. */
export interface EdgeExtremes extends Of<typeof edgeExtremes> {}

function meshedPeak(z: Zod) {
  return group(
    z,
    {
      ...extremes(z),
      error: figure(z, '1', "The mesh's own error of the peak, as a share of the largest hoop stress."),
    },
    'Stress around the edge under one load or case, by the independent mesh.',
  );
}

export function meshedEdge(z: Zod) {
  return group(
    z,
    {
      loads: byName(z, meshedPeak(z), 'Per load at its given size.'),
      cases: byName(z, meshedPeak(z), 'Per case, by its name.'),
      error: figure(z, '1', 'Largest of the errors.'),
      meshes: listOf(
        z,
        group(
          z,
          { triangles: figure(z, '1', 'Triangles.'), unknowns: figure(z, '1', 'Unknowns.') },
          'Size of one mesh.',
        ),
        'The two meshes, finer first.',
      ),
    },
    'What the independent mesh says of the edge.',
  );
}

/** The same by the mesh, with its own error. */
export interface MeshedEdge extends Of<typeof meshedEdge> {}

function peakDifference(z: Zod) {
  return group(
    z,
    {
      under: text(z, 'Under which load or case: `load pull`, `case pulled`.'),
      fast: figure(z, 'MPa', 'Peak of the fast model.'),
      meshed: figure(z, 'MPa', 'Peak of the mesh.'),
      difference: figure(z, '1', 'As a share of the largest hoop stress.'),
      error: figure(z, '1', "The mesh's own error."),
    },
    'Both peaks under one load or case.',
  );
}

/** How far the fast model and the mesh differ, as a fraction of the largest stress. */
export interface PeakDifference extends Of<typeof peakDifference> {}

export function agreement(z: Zod) {
  const share = figure(z, '1', 'Difference of the fast model from the mesh, as a share of the largest hoop stress.');
  return group(
    z,
    {
      loads: byName(z, share, 'Per load.'),
      cases: byName(z, share, 'Per case.'),
      worst: z.meta(peakDifference(z), { description: 'Where they differ most.' }),
      holds: flag(z, 'All of them are within what is tolerated.'),
    },
    'The fast model beside the independent mesh.',
  );
}

/** Differences of the fast model from the mesh, as shares of the largest hoop stress on the edge. */
export interface Agreement extends Of<typeof agreement> {}
