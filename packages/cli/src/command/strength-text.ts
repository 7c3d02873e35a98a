import { type CheckedStrength, type PlaceFactor, placeLabel } from '@lumenfront/core';
import { formatTable, type TableColumn } from '../show/index.js';
import { clarityText, startText } from '../words/index.js';

/** Places of each case that a reader should know of. */
const weakest = 3;

/** What a life ratio is worth; see `fatigueLives` of core. */
export const fatigueLimits =
  'Ratios of lives come from stress-life lines whose default slopes are common practice, without a source: constant amplitude, ' +
  'onset only, no growth of damage, the cure counted as if it cycled. Replace the slopes by your own tests (strength.fatigue).';

/** What strength means here, and what is left out. */
export function strengthLimits({ cuspDistance, edge }: Pick<CheckedStrength, 'cuspDistance' | 'edge'>): string {
  return (
    'Load factor: the cure is held and all other loads are scaled until the first place fails; a case of cure alone is scaled itself. ' +
    `The edge is judged by ${describeEdge(edge)}. Places within ${millimetres(cuspDistance)} mm of the tips of the filler or the pocket are not judged; ` +
    'nor, in a T-joint, laminates within a thickness of where they end, a load comes in or a support holds.'
  );
}

function describeEdge(edge: CheckedStrength['edge']): string {
  if (edge === 'peak') return 'its largest hoop tension';
  const cut = 'cut short at the least wall where the border of the filler is nearer';
  return edge.average
    ? // Against an independent mesh of eight joints: 2.1 % at worst.
      `the tension averaged over ${millimetres(edge.distance)} mm off it, ${cut} (there up to 2 % off)`
    : `the tension ${millimetres(edge.distance)} mm off it, ${cut}`;
}

/** What clarity says. */
const clearnessNote =
  'note: next fails at: how many times the load factor of the first place the next place takes: the larger, the more clearly failure starts at one place';

/** A factor, a share in percent or a life ratio; `undefined` where there is none. */
export const factorText = (factor: number): string | undefined =>
  Number.isFinite(factor) ? factor.toFixed(3) : undefined;
export const percentText = (share: number): string | undefined =>
  Number.isFinite(share) ? (100 * share).toFixed(1) : undefined;
export const ratioText = (ratio: number): string | undefined =>
  Number.isFinite(ratio) ? String(Number(ratio.toPrecision(3))) : undefined;
/** A position; `undefined` where nothing fails. */
export const placeText = (at: readonly [number, number]): string | undefined =>
  at.every(Number.isFinite) ? at.map(millimetres).join(', ') : undefined;

/** Without the sign of what rounds to nothing. */
function millimetres(value: number): string {
  return String(Number(value.toFixed(3)) + 0);
}

/** Strength of the joint with one channel, for people: every case, its weakest places, and what fatigue makes of it. */
export function strengthText(strength: CheckedStrength, width: number): string[] {
  const cases = Object.entries(strength.cases);
  const columns: TableColumn[] = [
    { heading: 'case', align: 'left' },
    { heading: 'load factor', align: 'right' },
    { heading: 'without channel', align: 'right' },
    { heading: 'strength retained', unit: '%', align: 'right' },
    { heading: 'starts at', align: 'left' },
    { heading: 'at', unit: 'mm', align: 'right' },
    { heading: 'next fails at', align: 'left' },
    { heading: 'starts without channel', align: 'left' },
    { heading: 'next without channel', align: 'left' },
    { heading: 'life / without channel', align: 'right' },
  ];
  const rows = cases.map(([name, one]) => [
    name,
    factorText(one.loadFactor),
    factorText(one.withoutChannel.loadFactor),
    percentText(one.retained),
    startText(one),
    placeText(one.at),
    clarityText(one),
    placeLabel(one.withoutChannel.place),
    clarityText(one.withoutChannel),
    ratioText(one.fatigue.ratio),
  ]);
  return [
    'strength of the whole joint, to first failure:',
    '',
    formatTable(columns, rows, { width, keys: 1 }),
    `retained ${retainedText(strength)}; load factor ${factorText(strength.loadFactor) ?? '-'} in case ${strength.worstCase}, ` +
      `where failure starts: ${startText(strength, placeText(strength.at))}`,
    '',
    'weakest places, with the load factor at which each fails:',
    '',
    formatTable(
      [
        { heading: 'case', align: 'left' },
        { heading: 'place', align: 'left' },
        { heading: 'load factor', align: 'right' },
        { heading: 'without channel', align: 'right' },
        { heading: 'at', unit: 'mm', align: 'right' },
      ],
      cases.flatMap(([name, { places, withoutChannel }]) =>
        places
          .slice(0, weakest)
          .map(({ place, factor, x, y }) => [
            name,
            placeLabel(place),
            factorText(factor),
            factorText(factorAt(place, withoutChannel.places)),
            placeText([x, y]),
          ]),
      ),
      { width, keys: 2 },
    ),
    ...besideText(strength),
    clearnessNote,
    ...cases.flatMap(([name, { reason }]) => (reason === undefined ? [] : [`note: case ${name}: ${reason}`])),
    `note: ${strengthLimits(strength)}`,
    `note: ${fatigueLimits}`,
  ];
}

/** The edge of a channel of known outline beside the one that is checked. */
function besideText({ cases }: CheckedStrength): string[] {
  const told = Object.entries(cases).flatMap(([name, { beside }]) =>
    beside === undefined ? [] : [`${name} ${beside.stress.toFixed(2)} MPa at ${placeText(beside.at)} mm`],
  );
  return told.length === 0
    ? []
    : [`largest tension at the edge of the channel of known outline: ${told.join('; ')}`, ''];
}

/** Over all cases; where the cure alone retains less than the cases that a search looks at, both. */
function retainedText({ retained, reason, cases }: CheckedStrength): string {
  const shares = Object.values(cases).map((one) => one.retained);
  const least = Math.min(...[retained, ...shares].filter(Number.isFinite));
  const text = percentText(least);
  if (text === undefined || reason !== undefined) return `over all cases ${percentText(retained) ?? '-'} % (${reason})`;
  return least < retained
    ? `over all cases ${text} %, over those with loads, by which searches go, ${percentText(retained)} %`
    : `over all cases ${text} %`;
}

function factorAt(place: PlaceFactor['place'], places: readonly PlaceFactor[]): number {
  return places.find((one) => one.place === place)?.factor ?? Number.POSITIVE_INFINITY;
}
