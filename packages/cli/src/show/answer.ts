import {
  type ChannelObjective,
  choiceText,
  type DesignDocument,
  placeLabel,
  type ResolvedBrief,
} from '@lumenfront/core';
import { meets } from '@lumenfront/optimizer';
import { knownEdgeText, timesText } from '../words/index.js';
import { costFigure, sizeFigure, withUnit } from './objective.js';

/** A front or a pick, of which the answer is told. */
export interface Answered {
  readonly kind: 'front' | 'pick';
  readonly designs: readonly DesignDocument[];
  readonly reference: DesignDocument;
  readonly allow: number;
  /** The design that is told of. */
  readonly picked: number;
  /** What a front trades. */
  readonly objective?: ChannelObjective;
  /** Share of made channels that keep the allowed peak, where a pick was made for that. */
  readonly quantile?: number;
}

/** A limit counts as reached within so much of it. */
const reached = 1.02;

/** What was found, in sentences for people: the largest within the allowed peak, beside the reference, what limits it, what fails as loaded. */
export function answerOf(found: Answered, { channel }: Pick<ResolvedBrief, 'channel'>): string[] {
  const { designs, picked, reference } = found;
  const design = designs[picked];
  if (design === undefined) return ['No design meets the brief.'];
  return [
    first(found, design),
    besideReference(design, reference),
    limits(found, design, channel),
    ...knownEdge(found, design),
    ...strengthOf(found, design),
    ...offTheFront(found),
  ];
}

const number = (value: number) => String(Number(value.toPrecision(4)));
const mpa = (stress: number) => `${stress.toFixed(1)} MPa`;
const named = ({ kind }: Answered, index: number) => (kind === 'pick' ? 'the pick' : `design ${index + 1}`);
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const takes = ({ allow, objective }: Answered, design: DesignDocument) => meets(design, allow, objective);

function first(found: Answered, design: DesignDocument): string {
  const { allow, picked } = found;
  const { family, area, peak, worstCase, pair, group = pair, row, choice } = design;
  const both = group === undefined ? '' : ` together, ${number(group.pitch)} mm apart`;
  const inRow = row === undefined ? '' : ` each, ${number(row.areaPerMetre)} mm² in a metre of width`;
  const chosen = choice === undefined ? '' : ` with ${choiceText(choice)}`;
  const what = `${named(found, picked)}, ${group === undefined ? family : `${pair === undefined ? design.group!.number : 'two'} channels of family ${family}`}, ${area.toPrecision(4)} mm²${both}${inRow}${chosen}, peak ${mpa(peak)} in ${worstCase}`;
  if (found.quantile !== undefined)
    return `Largest channel found of which ${number(100 * found.quantile)} % of made ones stay within the allowed ${number(allow)} MPa: ${what}.`;
  const strength = found.objective !== undefined && found.objective.cost !== 'peak';
  const wish = strength ? 'bears the loads as given' : `stays within the allowed ${number(allow)} MPa`;
  if (takes(found, design))
    return `Largest ${group === undefined ? 'channel' : pair === undefined ? 'set of channels' : 'pair of channels'} found that ${wish}: ${what}.`;
  return `No ${group === undefined ? 'channel' : pair === undefined ? 'set of channels' : 'pair of channels'} found ${wish}; the least stressed is ${what}.`;
}

function besideReference(design: DesignDocument, reference: DesignDocument): string {
  const parts = [
    `${timesText(design.area / reference.area)} times the area`,
    `${timesText(design.conductance / reference.conductance)} times the flow`,
    `${peakChange(design.peak, reference.peak)} (${mpa(design.peak)} for ${mpa(reference.peak)})`,
  ];
  const [kept, before] = [design.strength?.retained, reference.strength?.retained];
  if (kept !== undefined && before !== undefined && Number.isFinite(kept) && Number.isFinite(before))
    parts.push(`${(100 * kept).toFixed(1)} % of the joint's strength kept instead of ${(100 * before).toFixed(1)} %`);
  return `Against the reference of ${number(reference.area)} mm²: ${parts.join(', ')}.`;
}

/** Shares of a peak that is no tension say nothing. */
function peakChange(peak: number, reference: number): string {
  if (!(reference > 0)) return `a ${peak <= reference ? 'lower' : 'higher'} peak stress`;
  const change = 100 * (peak / reference - 1);
  return `${Math.abs(change).toFixed(0)} % ${change <= 0 ? 'less' : 'more'} peak stress`;
}

/** What keeps the design from being larger. */
function limits(
  found: Answered,
  design: DesignDocument,
  { wall, edgeRadius, largest }: ResolvedBrief['channel'],
): string {
  const { kind, designs, allow } = found;
  const held = [
    ...(design.wall <= reached * wall ? [`the wall (channel.wall ${number(wall)} mm)`] : []),
    ...(design.minEdgeRadius <= reached * edgeRadius
      ? [`the edge radius (channel.edgeRadius ${number(edgeRadius)} mm)`]
      : []),
    ...(largest !== undefined && (design.width * reached >= largest.width || design.height * reached >= largest.height)
      ? [`the largest size (channel.largest ${number(largest.width)} x ${number(largest.height)} mm)`]
      : []),
  ];
  const shape = held.length === 0 ? '' : `; its shape lies against ${listed(held)}`;
  if (kind === 'pick') {
    if (found.quantile !== undefined) return `What limits it: the peak of channels as they are made${shape}.`;
    if (design.peak >= allow / reached) return `What limits it: the allowed peak${shape}.`;
    return held.length === 0
      ? 'What limits it: the search, not the allowed peak; search longer (search.evaluations).'
      : `What limits it: ${listed(held)}, not the allowed peak.`;
  }
  const larger = designs.filter(({ area }) => area > design.area).sort((a, b) => a.area - b.area)[0];
  if (larger === undefined)
    return held.length === 0
      ? 'No larger channel was found.'
      : `What limits it: ${listed(held)}; no larger channel was found.`;
  if (!takes(found, design)) return `What limits it: larger ones are stressed more${shape}.`;
  const next = `design ${designs.indexOf(larger) + 1}, the next larger, has`;
  if (found.objective !== undefined && found.objective.cost !== 'peak')
    return `What limits it: the loads; ${next} load factor ${larger.strength?.loadFactor.toFixed(2) ?? '-'}${shape}.`;
  return `What limits it: the allowed peak; ${next} ${mpa(larger.peak)}${shape}.`;
}

/** Where the edge of a channel of known outline is the worse one. */
function knownEdge({ kind, allow, objective }: Answered, { peak, strength }: DesignDocument): string[] {
  if (objective !== undefined && objective.cost !== 'peak') return [];
  const only = kind === 'pick' ? 'the outline picked' : 'each outline of the front';
  return knownEdgeText(peak, strength, allow, only).map((text) => `${capital(text)}.`);
}

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

const fails = ({ strength }: DesignDocument) => strength !== undefined && strength.loadFactor < 1;

/** Where failure starts, and which channels do not bear the loads as given. */
function strengthOf(found: Answered, design: DesignDocument): string[] {
  const { kind, designs, reference } = found;
  const { strength } = design;
  const lines: string[] = [];
  if (strength !== undefined) lines.push(firstFailure(strength));
  if (reference.strength !== undefined && fails(reference))
    lines.push(
      breaksInCure(reference.strength)
        ? `The reference itself breaks in the cure, before any load comes (case ${reference.strength.worstCase}).`
        : `The reference itself fails below the loads as given: load factor ${reference.strength.loadFactor.toFixed(2)} in ${reference.strength.worstCase}.`,
    );
  const beyond = designs.filter(fails);
  if (beyond.length > 0 && kind === 'front') {
    const from = beyond.reduce((a, b) => (b.area < a.area ? b : a));
    lines.push(
      `${beyond.length} of the ${designs.length} designs fail below the loads as given (marked !), the smallest of ${number(from.area)} mm².`,
    );
  }
  return lines;
}

type Strength = NonNullable<DesignDocument['strength']>;

/** A load factor of 0 scales nothing: the held cure alone is too much. */
const breaksInCure = ({ loadFactor }: Strength) => loadFactor === 0;

function firstFailure(strength: Strength): string {
  const first = `first at: ${placeLabel(strength.place)}`;
  if (breaksInCure(strength))
    return `The joint with it breaks in the cure, before any load comes (case ${strength.worstCase}), ${first}.`;
  return Number.isFinite(strength.loadFactor)
    ? `The joint with it fails at load factor ${strength.loadFactor.toFixed(2)} in ${strength.worstCase}, ${first}${clearness(strength)}.`
    : 'The joint with it fails at no load of the cases.';
}

/** How clearly it starts there. */
function clearness({ clarity, next }: Strength): string {
  if (clarity === undefined || next === undefined || !Number.isFinite(clarity)) return '';
  return `; the next place (${placeLabel(next)}) fails at ${clarity.toFixed(2)} times that load`;
}

/** Why the front begins where it does. */
function offTheFront({ kind, designs, objective = { size: 'area', cost: 'peak' } }: Answered): string[] {
  const least = designs[0];
  if (kind !== 'front' || least === undefined) return [];
  const [size, cost] = [sizeFigure(objective, least.row !== undefined), costFigure(objective)];
  return [
    `${capital(objective.size === 'area' ? 'smaller channels' : `channels of less ${size.name}`)} are not on the front: none found below ${withUnit(size, size.of(least))}${least.row === undefined ? '' : ' in a metre'} has ${cost.grows ? 'a higher' : 'a lower'} ${cost.name} than design 1 (${withUnit(cost, cost.of(least))}).`,
  ];
}
