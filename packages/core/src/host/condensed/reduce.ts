import { halfSize, linearCoefficient, type RegularBasis } from '../../edge/index.js';
import type { Ply } from '../../material/index.js';
import type { PlaceMaps } from '../place-maps.js';
import type { ReducedLoad, ReducedModel } from '../reduced-model.js';
import {
  type ByClass,
  type Condensed,
  type CondensedHost,
  type CondensedState,
  inClass,
  mapClasses,
  stressesAt,
} from './condensed.js';
import { insideContour } from './inside.js';
import { placeMaps } from './place-frames.js';
import { hostAnswer, joinedSystem, type System, undisturbedField } from './system.js';

/** A unit load that one scalar of a condensed host tells. */
export interface ScalarLoad extends Pick<ReducedLoad, 'name' | 'size' | 'symmetric'> {
  /** Which of the host's `supports` holds it. */
  readonly support: number;
  readonly scalar: string;
}

/** A unit load whose field inside the contour is known, and that leaves the outside as it is. */
export type StillLoad = Omit<ReducedLoad, 'atPlaces'>;

/** A host outside its control contour, solved for its answers and unit loads: all of a reduced model but the stresses at places. */
export interface SolvedHost extends Pick<ReducedModel, 'basis' | 'shearModulus' | 'kappa' | 'responses'> {
  readonly loads: readonly StillLoad[];
  /** What each undisturbed field gains per mm2 of channel (`Undisturbed.perArea`), in the same form. */
  readonly perArea: readonly Float64Array[];
  /** Stresses at the section points numbered in `chosen`; with `everyMoment`, each point by all moments, however far off it is. */
  stresses(chosen: readonly number[], everyMoment?: boolean): HostStresses;
}

/** Stresses at section points: of the unit loads without channel, one array per load, and the maps of what channels add. */
export interface HostStresses {
  readonly still: readonly Float64Array[];
  readonly maps: Pick<PlaceMaps, 'basis' | 'degrees' | 'frame' | 'change'>;
}

/** Solves a condensed host of which the inside is filled with `material`, with the regular fields of `basis` there. */
export function solveHost(
  host: CondensedHost,
  material: Ply,
  basis: RegularBasis,
  loads: readonly (ScalarLoad | StillLoad)[],
): SolvedHost {
  if (host.supports.some((support) => 'whole' in support !== host.contour.closed))
    throw new Error('a closed contour is answered as a whole, half a contour by symmetry classes');
  const inside = insideContour(host.contour, material, basis);
  // Supports that differ in one class share the other: it is solved once.
  const joined = new Map<Condensed, System>();
  const supports = host.supports.map((support) =>
    mapClasses(inside.trials, (trial) => {
      const outside = inClass(support, trial.of !== 'antisymmetric');
      const known = joined.get(outside) ?? joinedSystem(inside, trial, outside);
      joined.set(outside, known);
      return known;
    }),
  );
  const units = loads.map((load) =>
    'scalar' in load ? scalarUnit(basis, supports, load) : { load, acting: undefined, perArea: undefined },
  );
  return {
    basis,
    shearModulus: inside.shearModulus,
    kappa: inside.kappa,
    responses: ofEach(supports, hostAnswer),
    loads: units.map(({ load }) => load),
    perArea: units.map(({ load, perArea }) => perArea ?? new Float64Array(load.undisturbed.length)),
    stresses: (chosen, everyMoment = false) => ({
      still: units.map(({ acting }) =>
        acting ? stressesAt(acting.on, chosen, [acting.state]) : new Float64Array(3 * chosen.length),
      ),
      maps: placeMaps(inside, supports, chosen, everyMoment),
    }),
  };
}

/** Worked out once for a system that several supports share. */
function ofEach<T>(supports: readonly ByClass<System>[], workOut: (system: System) => T): ByClass<T>[] {
  const known = new Map<System, T>();
  return supports.map((support) =>
    mapClasses(support, (system) => {
      const value = known.get(system) ?? workOut(system);
      known.set(system, value);
      return value;
    }),
  );
}

/** A unit load, and the state of the outside that gives its stresses there. */
interface Unit {
  readonly load: StillLoad;
  readonly acting: { readonly on: Condensed; readonly state: CondensedState } | undefined;
  readonly perArea: Float64Array | undefined;
}

function scalarUnit(
  { degree }: RegularBasis,
  supports: readonly ByClass<System>[],
  { support, scalar, ...named }: ScalarLoad,
): Unit {
  const system = inClass(supports[support]!, named.symmetric);
  const { coefficients, state, perArea } = undisturbedField(system, scalar);
  const inBothClasses = (ofOne: Float64Array) => {
    const both = new Float64Array(2 * halfSize(degree));
    both.set(ofOne, system.trial.of === 'antisymmetric' ? halfSize(degree) : 0);
    return both;
  };
  return {
    load: { ...named, undisturbed: inBothClasses(coefficients), response: support, offset: 0 },
    acting: { on: system.outside, state },
    perArea: perArea && inBothClasses(perArea),
  };
}

/**
 * A pressure of 1 MPa in the channel: 1 less everywhere, and a field of 1 on a free edge, `phi = z / 2`; `support`: which answers
 * what the edge does.
 */
export function innerPressure(basis: RegularBasis, support: number): StillLoad {
  const undisturbed = new Float64Array(2 * halfSize(basis.degree));
  undisturbed[0] = linearCoefficient(basis) / 2;
  return { name: 'pressure', size: 'pressure', undisturbed, response: support, offset: -1, symmetric: true };
}
