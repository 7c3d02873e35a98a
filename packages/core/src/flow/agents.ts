import type { Quantities } from '../quantity.js';

/**
 * A liquid that is pumped through the channel into a damage and hardens there. Units are those of data sheets, which
 * differ from mm, N, MPa where a data sheet does.
 */
export interface HealingAgent {
  readonly name: string;
  /** Of the fresh (mixed) agent, mPa s. */
  readonly viscosity: number;
  /** From mixing to gel, s: the agent flows until then and not afterwards. */
  readonly gelTime: number;
  /** Viscosity at gel over that of the fresh agent, reached exponentially; 1: constant up to gel. */
  readonly viscosityGrowth: number;
  /** Relative change of volume from liquid to cured: -0.1 shrinks by a tenth, 9 foams up to ten times its volume. */
  readonly volumeChange: number;
  /** mN/m; 0 leaves capillary pressure out. */
  readonly surfaceTension: number;
  /** On the wall of channel and damage, degrees; above 90 the agent does not wet and must be pushed in. */
  readonly contactAngle: number;
  /** Widest gap that the agent hardens in and stays in, mm. */
  readonly largestGap: number;
  /** kg/m3 */
  readonly density: number;
  /** Of the hardened agent in the damage, or of its bond if that is less, MPa; left out: not known, and nothing is said of strength after repair. */
  readonly tensileStrength?: number;
  readonly shearStrength?: number;
  /** Of its bond between the two unlike faces of an interface, MPa; left out: that above. Never more than that counts. */
  readonly bondTensileStrength?: number;
  readonly bondShearStrength?: number;
  /**
   * Critical energy release rate of the crack that it healed, opened again, over that of the sound material's; left out: its strengths alone count. With
   * this alone, strengths after repair are told of it.
   */
  readonly toughnessShare?: number;
  /** Slope of its stress-life line `life = (strength / stress)^slope`; left out: nothing is said of fatigue. */
  readonly fatigueSlope?: number;
  /** Shown wherever the agent's results are. */
  readonly caution?: string;
}

/** Stands at every built-in agent. */
export const agentCaution = 'typical, from memory; replace by the data sheet';

export const agentQuantities: Quantities<HealingAgent> = {
  viscosity: { unit: 'mPa s', above: 0, atMost: 1e7, sentence: 'Viscosity of the fresh (mixed) agent.' },
  gelTime: { unit: 's', above: 0, atMost: 1e7, sentence: 'Time from mixing to gel.' },
  viscosityGrowth: {
    unit: '1',
    atLeast: 1,
    atMost: 1e6,
    sentence: 'Viscosity at gel over that of the fresh agent, reached exponentially; 1 is constant up to gel.',
  },
  volumeChange: {
    unit: '1',
    above: -0.9,
    atMost: 100,
    sentence: 'Relative change of volume from liquid to cured; negative shrinks.',
  },
  surfaceTension: {
    unit: 'mN/m',
    atLeast: 0,
    atMost: 1000,
    sentence: 'Surface tension; 0 leaves capillary pressure out.',
  },
  contactAngle: { unit: 'deg', atLeast: 0, atMost: 180, sentence: 'Contact angle on channel and damage.' },
  largestGap: {
    unit: 'mm',
    above: 0,
    atMost: 1000,
    sentence: 'Widest gap that the agent hardens in and stays in.',
  },
  density: { unit: 'kg/m3', above: 0, atMost: 30_000, sentence: 'Density of the liquid.' },
  tensileStrength: {
    unit: 'MPa',
    above: 0,
    atMost: 1000,
    sentence: 'Tensile strength of the hardened agent in the damage, or of its bond if that is less.',
  },
  shearStrength: { unit: 'MPa', above: 0, atMost: 1000, sentence: 'Shear strength of the same.' },
  bondTensileStrength: {
    unit: 'MPa',
    above: 0,
    atMost: 1000,
    sentence: 'Tensile strength of its bond at an interface of the joint, where that is less.',
  },
  bondShearStrength: { unit: 'MPa', above: 0, atMost: 1000, sentence: 'Shear strength of that bond.' },
  toughnessShare: {
    unit: '1',
    above: 0,
    atMost: 100,
    sentence:
      'Critical energy release rate of a healed crack that opens again over that of the sound material (double cantilever beams of both); in the place of strengths, or beside them: what bears less counts.',
  },
  fatigueSlope: {
    unit: '1',
    above: 1,
    atMost: 100,
    sentence: 'Slope of its stress-life line, life = (strength / stress)^slope.',
  },
};

/**
 * Generic kinds of agent. Every value is typical, from memory, and to be replaced by the data sheet: they let a study
 * run before an agent is chosen, and prove nothing about any product.
 */
export const genericAgents = {
  'thin-cyanoacrylate': {
    name: 'thin cyanoacrylate',
    viscosity: 3,
    gelTime: 20,
    viscosityGrowth: 1,
    volumeChange: -0.12,
    surfaceTension: 33,
    contactAngle: 10,
    largestGap: 0.2,
    density: 1060,
    tensileStrength: 15,
    shearStrength: 12,
    bondTensileStrength: 12,
    bondShearStrength: 10,
    fatigueSlope: 6,
    caution: agentCaution,
  },
  'low-viscosity-epoxy': {
    name: 'low-viscosity epoxy',
    viscosity: 250,
    gelTime: 1800,
    viscosityGrowth: 1,
    volumeChange: -0.05,
    surfaceTension: 40,
    contactAngle: 20,
    largestGap: 1,
    density: 1120,
    tensileStrength: 45,
    shearStrength: 30,
    bondTensileStrength: 30,
    bondShearStrength: 20,
    fatigueSlope: 10,
    caution: agentCaution,
  },
  'expanding-polyurethane-foam': {
    name: 'expanding polyurethane foam',
    viscosity: 400,
    gelTime: 90,
    viscosityGrowth: 1,
    volumeChange: 9,
    surfaceTension: 30,
    contactAngle: 20,
    largestGap: 20,
    density: 1100,
    caution: agentCaution,
  },
} as const satisfies Readonly<Record<string, HealingAgent>>;

/** Name of a built-in healing agent. */
export type GenericAgent = keyof typeof genericAgents;
