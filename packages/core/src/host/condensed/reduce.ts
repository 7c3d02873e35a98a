import { halfSize, linearCoefficient, type RegularBasis } from '../../edge/index.js';
import type { PlaceMaps } from '../place-maps.js';
import type { ReducedLoad, ReducedModel } from '../reduced-model.js';
import {
  type ByClass,
  type Condensed,
  type CondensedHost,
  type CondensedState,
  inClass,
  keptOf,
  mapClasses,
  type OutsideBody,
  type Recoverable,
  type RecoverableHost,
} from './condensed.js';
import type { Inside } from './inside.js';
import { placeMaps } from './place-frames.js';
import {
  axialAnswer,
  hostAnswer,
  joinedSystem,
  type System,
  type UnitStrain,
  undisturbedField,
  unitStrain,
} from './system.js';

/** A unit load that one scalar of a condensed host tells. */
export interface ScalarLoad extends Pick<ReducedLoad, 'name' | 'size' | 'symmetric'> {
  /** Which of the host's `supports` holds it. One under which `strainZ` is a load gives the strain along the channel: no other load changes it there. */
  readonly support: number;
  readonly scalar: string;
}

/** A unit load whose field inside the contour is known, and that leaves the outside as it is. */
export type StillLoad = Omit<ReducedLoad, 'atPlaces'>;

/** A host outside its control contour, solved for its answers and unit loads: all of a reduced model but the stresses at places. */
export interface SolvedFields extends Pick<ReducedModel, 'basis' | 'shearModulus' | 'kappa' | 'responses'> {
  readonly loads: readonly StillLoad[];
}

/** The same of a host that can tell the stresses outside. */
export interface SolvedHost extends SolvedFields {
  /** Stresses at the section points numbered in `chosen`; with `everyMoment`, each point by all moments, however far off it is. */
  stresses(chosen: readonly number[], everyMoment?: boolean): HostStresses;
}

/** Stresses at section points: of the unit loads without channel, one array per load, and the maps of what channels add. */
export interface HostStresses {
  readonly still: readonly Float64Array[];
  readonly maps: Pick<PlaceMaps, 'basis' | 'degrees' | 'frame' | 'change' | 'strained'>;
}

/** Solves a condensed host with what is inside its contour. */
export function solveHost(
  host: RecoverableHost,
  inside: Inside,
  loads: readonly (ScalarLoad | StillLoad)[],
): SolvedHost {
  const { fields, supports, units, strains } = solveInside(host, inside, loads);
  const strained = strains.map(
    (strain, s) => strain && { on: inClass(supports[s]!, true).outside, state: strain.state },
  );
  return {
    ...fields,
    stresses(chosen, everyMoment = false) {
      const still = stillStresses(host.body, [...units.map(({ acting }) => acting), ...strained], chosen);
      const maps = placeMaps(inside, supports, host.body, chosen, everyMoment);
      return { still: still.slice(0, units.length), maps: { ...maps, strained: still.slice(units.length) } };
    },
  };
}

/** What is solved, and how. */
interface SolvedInside<Outside extends Condensed> {
  readonly fields: SolvedFields;
  readonly supports: readonly ByClass<System<Outside>>[];
  readonly units: readonly Unit<Outside>[];
  /** Support by support. */
  readonly strains: readonly (UnitStrain | undefined)[];
}

/** As `solveHost`, of a host that need not tell the stresses outside. */
export function solveInside<Outside extends Condensed>(
  host: CondensedHost<Outside>,
  inside: Inside,
  loads: readonly (ScalarLoad | StillLoad)[],
): SolvedInside<Outside> {
  if (host.supports.some((support) => 'whole' in support !== host.contour.closed))
    throw new Error('closed contours answer as a whole, halves by class');
  const { basis } = inside;
  // Supports that differ in one class share the other: it is solved once.
  const joined = new Map<Outside, System<Outside>>();
  const supports = host.supports.map((support) =>
    mapClasses(inside.trials, (trial) => {
      const outside = inClass(support, trial.of !== 'antisymmetric');
      const known = joined.get(outside) ?? joinedSystem(inside, trial, outside);
      joined.set(outside, known);
      return known;
    }),
  );
  const strains = supports.map((support, s) => {
    const given = loads.some((load) => 'scalar' in load && load.scalar === 'strainZ' && load.support === s);
    return given ? undefined : unitStrain(inClass(support, true));
  });
  const units = loads.map((load): Unit<Outside> => {
    if ('scalar' in load)
      return scalarUnit(basis, inClass(supports[load.support]!, load.symmetric), strains[load.support], load);
    // Its offset stresses the section's plane alone: what it gives along the channel is no part of the field.
    const axialStress = load.axialStress ?? 2 * inside.contraction * load.offset;
    return { load: { ...load, axialStress }, acting: undefined };
  });
  const fields: SolvedFields = {
    basis,
    shearModulus: inside.shearModulus,
    kappa: inside.kappa,
    responses: ofEach(supports, hostAnswer).map((answer, s) => {
      const strain = strains[s];
      return strain === undefined ? answer : { ...answer, axial: axialAnswer(inClass(supports[s]!, true), strain) };
    }),
    loads: units.map(({ load }) => load),
  };
  return { fields, supports, units, strains };
}

/** Stresses of states without channel, one array each; of none, zeros. */
function stillStresses(
  body: OutsideBody,
  states: readonly (Acting<Recoverable> | undefined)[],
  chosen: readonly number[],
): Float64Array[] {
  const kept = states.flatMap((acting) => (acting ? [keptOf(acting.on, [acting.state])] : []));
  const columns = kept.length;
  const all = body.stresses(
    Float64Array.from(
      { length: columns * (kept[0]?.length ?? 0) },
      (_, i) => kept[i % columns]![Math.floor(i / columns)]!,
    ),
    columns,
    chosen,
  );
  let column = 0;
  return states.map((acting) => {
    const own = acting ? column++ : -1;
    return Float64Array.from({ length: 3 * chosen.length }, (_, row) => (own < 0 ? 0 : all[row * columns + own]!));
  });
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

/** A state of the outside, as it is held. */
interface Acting<Outside extends Condensed> {
  readonly on: Outside;
  readonly state: CondensedState;
}

/** A unit load, and the state of the outside that gives its stresses there. */
interface Unit<Outside extends Condensed> {
  readonly load: StillLoad;
  readonly acting: Acting<Outside> | undefined;
}

function scalarUnit<Outside extends Condensed>(
  { degree }: RegularBasis,
  system: System<Outside>,
  strain: UnitStrain | undefined,
  { support, scalar, ...named }: ScalarLoad,
): Unit<Outside> {
  // Without a resultant along the channel, antisymmetric loads strain nothing along it.
  const free = system.trial.of === 'antisymmetric' ? undefined : strain;
  const { coefficients, state, axialStress } = undisturbedField(system, scalar, free);
  const undisturbed = new Float64Array(2 * halfSize(degree));
  undisturbed.set(coefficients, system.trial.of === 'antisymmetric' ? halfSize(degree) : 0);
  return {
    load: { ...named, undisturbed, response: support, offset: 0, axialStress },
    acting: { on: system.outside, state },
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
