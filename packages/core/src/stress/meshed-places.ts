import { InputError } from '../errors.js';
import { hostKind, type Joint, type LoadName, type MeshedLoads, type SectionPoint } from '../host/index.js';
import { createLocator, type LocalStress, localStress, type MeshPlace, stressOf } from '../mesh/triangle/index.js';

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
  const locate = createLocator(mesh);
  /** The triangles that tell of each point: one, or those on both sides of an interface. */
  const tellers = points.map((point, p): readonly MeshPlace[] => {
    const { place, layer, x, y } = point;
    const locateIn = (zonePlace: string, zoneLayer: number) =>
      locate(x, y, (zone) => {
        const { place: there, layer: here } = mesh.zones[zone]!;
        return there === zonePlace && here === zoneLayer;
      });
    const within = (zonePlace: string, zoneLayer: number): MeshPlace => {
      // A point between two others may lie in the layer beside.
      const found =
        locateIn(zonePlace, zoneLayer) ?? locateIn(zonePlace, zoneLayer - 1) ?? locateIn(zonePlace, zoneLayer + 1);
      if (found === undefined)
        throw new InputError({
          path: `points[${p}]`,
          expected: `a place in layer ${zoneLayer} of the ${zonePlace}`,
          received: `(${x}, ${y})`,
          remedy: 'take places inside the body they name, and none inside the channel',
        });
      return found;
    };
    const { between, zone } = places[place] ?? {};
    return between === undefined
      ? [within(zone ?? place, layer)]
      : between.map((side) => within(side.place, side.layer ?? layer));
  });
  return Object.fromEntries(
    [...solutions].map(([name, { u, deltaT }]) => {
      const stress = stressOf(mesh, u, deltaT);
      const result = new Float64Array(3 * points.length);
      points.forEach(({ normalAngle }, p) => {
        const [inner, outer] = tellers[p]!.map(
          ({ triangle, L2, L3 }): LocalStress => localStress(stress(triangle, L2, L3), normalAngle),
        );
        const [n, t, nt] = inner!;
        result.set(outer === undefined ? inner! : [(n + outer[0]) / 2, t, (nt + outer[2]) / 2], 3 * p);
      });
      return [name, result];
    }),
  );
}
