import { InputError } from '../errors.js';
import {
  type HostKind,
  hostKind,
  type Joint,
  type LoadName,
  type MeshedLoads,
  type SectionPoint,
} from '../host/index.js';
import {
  type CubicMesh,
  type LocalStress,
  localStress,
  locate,
  type Solution,
  stressOf,
} from '../mesh/triangle/index.js';

/**
 * Stresses at section points of a meshed joint per load: `(n, t, nt)` of each, in its own axes, MPa. At interfaces n and nt are the mean of
 * both sides, t is the inner one's. Throws `InputError` for a point that does not lie where it says.
 */
export function meshedPlaces(
  { kind }: Joint,
  { mesh, solutions }: MeshedLoads,
  points: readonly SectionPoint[],
): Readonly<Record<LoadName, Float64Array>> {
  const { places } = hostKind(kind);
  return Object.fromEntries([...solutions].map(([name, one]) => [name, stressAt(mesh, one, points, places)]));
}

/** `(n, t, nt)` of every point. */
function stressAt(
  mesh: CubicMesh,
  { u, deltaT }: Solution,
  points: readonly SectionPoint[],
  places: HostKind['places'],
): Float64Array {
  const stress = stressOf(mesh, u, deltaT);
  const result = new Float64Array(3 * points.length);
  points.forEach(({ place, layer, x, y, normalAngle: angle }, p) => {
    const from = (zonePlace: string, zoneLayer: number): LocalStress => {
      const found = locate(mesh, x, y, (zone) => {
        const { place: there, layer: here } = mesh.zones[zone]!;
        return there === zonePlace && here === zoneLayer;
      });
      if (found === undefined)
        throw new InputError({
          path: `points[${p}]`,
          expected: `a place in layer ${zoneLayer} of the ${zonePlace}`,
          received: `(${x}, ${y})`,
          remedy: 'take places inside the body they name, and none inside the channel',
        });
      return localStress(stress(found.triangle, found.L2, found.L3), angle);
    };
    let value: LocalStress;
    const between = places[place]?.between;
    if (between !== undefined) {
      const [inner, outer] = between.map((zone) => from(zone.place, zone.layer ?? layer)) as [LocalStress, LocalStress];
      value = [(inner[0] + outer[0]) / 2, inner[1], (inner[2] + outer[2]) / 2];
    } else value = from(places[place]?.zone ?? place, layer);
    result.set(value, 3 * p);
  });
  return result;
}
