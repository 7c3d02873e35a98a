import type { EdgeLoad } from '../edge/index.js';
import { InputError } from '../errors.js';
import { isMirrored, type LoadName, type Loads, type ReducedModel } from '../host/index.js';
import type { SideBySide } from '../outline/index.js';

/** A load of the brief at its given size, in terms of the host's unit loads. */
export interface ActingLoad extends EdgeLoad {
  readonly name: LoadName;
  axialStress: number;
  /** Index of the host's response; -1: it does not answer. */
  readonly responseIndex: number;
  readonly offset: number;
  /** Undisturbed stress at the model's places `[symmetric | antisymmetric]`, `3 places` each, MPa. */
  readonly atPlaces: Float64Array;
  readonly symmetric: boolean;
  /** Neither symmetric nor antisymmetric. */
  readonly mixed: boolean;
}

/** Throws where several channels cannot be solved. */
export function checkSeveral(model: ReducedModel, acting: readonly ActingLoad[], { number, pitch }: SideBySide): void {
  const refuse = (path: string, expected: string, received: string, remedy: string) => {
    throw new InputError({ path, expected, received, remedy });
  };
  if (number > 2 && !(pitch !== undefined && pitch > 0))
    refuse('channels.pitch', 'of more than two channels, the distance of neighbours, mm', String(pitch), 'give it');
  if (!isMirrored(model)) return;
  for (const { name, mixed } of acting)
    if (mixed)
      refuse(
        `loads.${name}`,
        'of several channels, a load that is symmetric or antisymmetric about the line in their middle',
        'one that is both at once',
        'leave out what shears, or what does not',
      );
}

/** Unit loads of the host, at the sizes given, in the host's order. Throws InputError for a load that the host does not know. */
export function actingLoads(model: ReducedModel, loads: Loads): ActingLoad[] {
  const known = [...new Set(model.loads.map(({ name }) => name))];
  for (const name of Object.keys(loads))
    if (!known.includes(name))
      throw new InputError({
        path: `loads.${name}`,
        expected: `a load that this host takes: ${known.join(', ')}`,
        received: name,
        remedy: 'leave it out or change the support',
      });
  return known
    .filter((name) => Object.hasOwn(loads, name))
    .map((name) => {
      const undisturbed = new Float64Array(4 * model.basis.degree);
      const places = 3 * model.places.points.length;
      const atPlaces = new Float64Array(2 * places);
      let offset = 0;
      let response = -1;
      // A host without mirror symmetry answers no load symmetrically.
      let symmetric = isMirrored(model);
      let even = false;
      let acting = false;
      for (const unit of model.loads) {
        if (unit.name !== name) continue;
        const size = loads[name]![unit.size] ?? 0;
        const from = unit.symmetric ? 0 : places;
        for (let i = 0; i < places; i++) atPlaces[from + i]! += size * unit.atPlaces[i]!;
        offset += size * unit.offset;
        if (size !== 0 && acting && unit.response !== response) refuseBoth(name);
        if (size !== 0 || !acting) response = unit.response;
        acting ||= size !== 0;
        if (size !== 0 && !unit.symmetric) symmetric = false;
        if (size !== 0 && unit.symmetric) even = true;
      }
      const acts = { name, undisturbed, axialStress: 0 };
      fillUndisturbed(model, loads, acts);
      return {
        ...acts,
        atPlaces,
        offset,
        symmetric,
        mixed: even && !symmetric,
        response: response < 0 ? undefined : model.responses[response]!,
        responseIndex: response,
      };
    });
}

/** One size moves what holds the host, the other loads it: it answers each in its own way. */
function refuseBoth(load: LoadName): never {
  throw new InputError({
    path: `loads.${load}`,
    expected: 'one size: the host is held in another way under each',
    received: 'two',
    remedy: 'give one of them, the other 0 or left out',
  });
}

/** Writes a load's undisturbed field, and its axial stress: those of its unit loads at their sizes. */
export function fillUndisturbed(
  model: ReducedModel,
  loads: Loads,
  acting: Pick<ActingLoad, 'name' | 'undisturbed' | 'axialStress'>,
): void {
  const { name, undisturbed } = acting;
  undisturbed.fill(0);
  acting.axialStress = 0;
  for (const unit of model.loads) {
    if (unit.name !== name) continue;
    const size = loads[name]![unit.size] ?? 0;
    acting.axialStress += size * (unit.axialStress ?? 0);
    for (let i = 0; i < undisturbed.length; i++) undisturbed[i]! += size * unit.undisturbed[i]!;
  }
}
