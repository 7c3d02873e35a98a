import type { HostResponse, RegularBasis } from '../edge/index.js';
import type { HeightTable } from './height-table.js';
import type { LoadName } from './load.js';
import { type PlaceMaps, withoutPlaces } from './place-maps.js';

/** Raise it with every change of what a reduced model holds or of how it is computed: models kept on disk are made again. */
export const reducedModelVersion = 19;

/** One unit load on the reduced model. */
export interface ReducedLoad {
  /** A load of the host, and which of its sizes is 1. */
  readonly name: LoadName;
  readonly size: string;
  /** Undisturbed regular field of the unit load, coefficients `[symmetric | antisymmetric]`, MPa per unit. */
  readonly undisturbed: Float64Array;
  /** Undisturbed stress `(n, t, nt)` at the model's places, `3 places`, MPa per unit. */
  readonly atPlaces: Float64Array;
  /** Index into `responses`; -1: the host does not answer. */
  readonly response: number;
  /** Added to the hoop stress: a pressure acts on the edge itself. MPa per unit. */
  readonly offset: number;
  /** Along the channel where it will be, but for what the stress in the section's plane gives there: MPa per unit. Default 0. */
  readonly axialStress?: number;
  /** The field is symmetric in `x = 0`. */
  readonly symmetric: boolean;
}

/** A control contour as plain numbers, of which its kind of host makes a border. */
export type ContourData = Readonly<Record<string, number | readonly number[]>>;

/**
 * The whole reduced model of a host: plain data, small enough to keep in a file, to send to a worker or to a browser.
 * Inside the control contour the material is homogeneous and isotropic in the plane; outside, the host is `responses`.
 */
export interface ReducedModel {
  readonly kind: string;
  /** Which joint (a hash), wall and edge radius (mm) it was made for; `reduceJoint` says so, and `createTask` holds briefs against it. */
  readonly madeFor?: { readonly joint: string; readonly wall: number; readonly edgeRadius: number };
  readonly basis: RegularBasis;
  /** In-plane shear modulus (MPa) and Kolosov constant of the material around the channel. */
  readonly shearModulus: number;
  readonly kappa: number;
  readonly responses: readonly HostResponse[];
  /** In the order of the host's definitions. */
  readonly loads: readonly ReducedLoad[];
  /** Stresses outside the control contour. */
  readonly places: PlaceMaps;
  /**
   * Largest difference of a peak from that of the finer model, or what is thought to be left beyond that if it is more, as a share of the largest hoop stress around the same outline, over
   * outlines at the limits of wall and edge radius; `undefined` where none was made.
   */
  readonly accuracy?: number;
  /** What tells the error of the model around any one edge. */
  readonly finer?: FinerFields;
  /** Within which the model holds; `undefined`: everywhere. */
  readonly contour: ContourData | undefined;
  /** Of a pocket that follows its channel; all else is then the model of one of its heights. */
  readonly heights?: HeightTable;
}

/** The same host with regular fields of another degree: all of such a model that the stress at an edge needs. */
export interface EdgeFieldsOfDegree extends Pick<ReducedModel, 'basis' | 'responses'> {
  /** In the order of the model's loads. */
  readonly undisturbed: readonly Float64Array[];
}

/** With fields of a higher degree. */
export interface FinerFields extends EdgeFieldsOfDegree {
  /** Of a model whose fields converge slowly: with those of a degree as much below the model's as the finer one is above it, so that the rate shows around any one edge. */
  readonly lower?: EdgeFieldsOfDegree;
}

/** The finer model of a model, for stresses at the edge alone; `undefined` where none was made. */
export const finerModel = ({ finer, ...model }: ReducedModel): ReducedModel | undefined =>
  finer && withFields(model, finer);

/** The lower one, likewise. */
export const lowerModel = ({ finer, ...model }: ReducedModel): ReducedModel | undefined =>
  finer?.lower && withFields(model, finer.lower);

function withFields(
  model: Omit<ReducedModel, 'finer'>,
  { basis, responses, undisturbed }: EdgeFieldsOfDegree,
): ReducedModel {
  return edgePart({
    ...model,
    basis,
    responses,
    loads: model.loads.map((load, l) => ({ ...load, undisturbed: undisturbed[l]! })),
  });
}

/** All that the stress at a channel's edge needs, a fortieth of the whole: for who asks for no strength, and for no estimate of the error. */
export function edgePart({ finer, heights, ...model }: ReducedModel): ReducedModel {
  const none = new Float64Array(0);
  return {
    ...model,
    ...(heights === undefined ? {} : { heights: { ...heights, models: heights.models.map(edgePart) } }),
    loads: model.loads.map((load) => ({ ...load, atPlaces: none })),
    places: withoutPlaces(model.basis),
  };
}

/** Whether the host is mirror-symmetric in `x = 0`: all its answers fall into two symmetry classes. */
export function isMirrored({ responses }: Pick<ReducedModel, 'responses'>): boolean {
  return responses.every((response) => !('whole' in response));
}
