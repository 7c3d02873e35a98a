import type { MaterialBook } from '../host/index.js';
import { type BriefPath, formatPath, formatReceived, nearestName, type ProblemList } from '../input/index.js';
import { defaultMaterial, genericCaution, genericMaterials, type Ply } from '../material/index.js';
import { implausibleMaterials } from './plausible/index.js';
import type { UsedMaterial } from './resolved.js';
import type { BriefData } from './schema.js';
import { sha256Hex } from './sha256.js';

/** Looks materials up by name, the brief's own before the built-in ones, and remembers which were used, and where. */
export interface BriefMaterials extends MaterialBook {
  used(): UsedMaterial[];
  cautions(): string[];
}

/** @param materials `undefined` if the section is faulty: then every name passes and gives a stand-in. */
export function openMaterialBook(materials: BriefData['materials'] | undefined, problems: ProblemList): BriefMaterials {
  const own = new Map<string, Ply>();
  for (const [name, material] of Object.entries(materials ?? {})) {
    const ply = 'E' in material ? isotropicPly(material) : material;
    checkStability(ply, implausibleMaterials({ [name]: material }), ['materials', name], problems);
    own.set(name, ply);
  }
  /** Told once, wherever else they are asked for. */
  const missing = new Set<string>();
  const used: UsedMaterial[] = [];
  const note = (name: string, path: BriefPath, source: UsedMaterial['source']) => {
    const at = formatPath(path.slice(0, -1));
    const place = used.findIndex((one) => one.name === name && one.source === source);
    if (place < 0) used.push({ name, at: [at], source });
    else used[place] = { name, at: [...used[place]!.at, at], source };
  };
  return {
    find(name, path) {
      const ply = own.get(name);
      if (ply !== undefined) {
        note(name, path, 'own');
        return ply;
      }
      if (Object.hasOwn(genericMaterials, name)) {
        note(name, path, problems.isGiven(path) ? 'built-in' : 'default');
        return genericMaterials[name]!;
      }
      const standIn = genericMaterials[defaultMaterial]!;
      if (materials === undefined) return standIn;
      if (missing.has(name)) return standIn;
      missing.add(name);
      const known = [...own.keys(), ...Object.keys(genericMaterials)];
      const near = nearestName(name, known);
      problems.add(
        path,
        `a material out of ${known.slice(0, 20).join(', ')}`,
        near === undefined ? 'add it under materials' : `did you mean '${near}'? If not, add it under materials`,
        formatReceived(name),
      );
      return standIn;
    },
    text(file, path) {
      const text = problems.textOf(file, path);
      return text === undefined ? undefined : { text, sha256: sha256Hex(text) };
    },
    used: () => used,
    cautions: () => used.filter(({ source }) => source !== 'own').map(cautionOf),
  };
}

function cautionOf({ name, at, source }: UsedMaterial): string {
  const where = at.join(', ');
  return source === 'default'
    ? `material ${name}: taken where the brief names none (${where}); ${genericCaution}`
    : `material ${name} (${where}): ${genericCaution}`;
}

interface Isotropic {
  readonly E: number;
  readonly nu: number;
  readonly alpha: number;
  readonly transverseTension: number;
  readonly interlaminarShear: number;
}

function isotropicPly({ E, nu, alpha, transverseTension, interlaminarShear }: Isotropic): Ply {
  return {
    E1: E,
    E2: E,
    nu12: nu,
    nu23: nu,
    G12: E / (2 * (1 + nu)),
    alpha1: alpha,
    alpha2: alpha,
    transverseTension,
    interlaminarShear,
  };
}

/**
 * Positive strain energy of a transversely isotropic material: `|nu12| < sqrt(E1/E2)` and
 * `1 - nu23 - 2 nu12^2 E2/E1 > 0` (Lempriere, AIAA J. 6 (1968) 2226-2227, specialised to the 2-3 plane of isotropy).
 * Such a material was hardly meant: `doubts` about its values say why, where there are any.
 */
function checkStability(ply: Ply, doubts: readonly string[], path: BriefPath, problems: ProblemList): void {
  const meant = doubts.join('; ');
  const most = Math.sqrt(ply.E1 / ply.E2);
  if (!(Math.abs(ply.nu12) < most))
    problems.add(
      [...path, 'nu12'],
      `less than sqrt(E1/E2) = ${most.toPrecision(4)}`,
      meant || "check E1, E2 and nu12; nu12 is the larger Poisson's ratio (pull along the fibres)",
    );
  else if (!(1 - ply.nu23 - (2 * ply.nu12 ** 2 * ply.E2) / ply.E1 > 0))
    problems.add(
      [...path, 'nu23'],
      `less than 1 - 2 nu12^2 E2/E1 = ${(1 - (2 * ply.nu12 ** 2 * ply.E2) / ply.E1).toPrecision(4)}`,
      meant || 'a material with these values would give energy away; check nu23, nu12, E1 and E2',
    );
}
