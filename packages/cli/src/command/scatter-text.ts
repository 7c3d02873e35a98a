import type {
  ResolvedBrief,
  ScatterDesignDocument,
  ScatterFrontDocument,
  ScatterStudyDocument,
} from '@lumenfront/core';
import type { Spread } from '@lumenfront/optimizer';
import { caution } from '../caution.js';
import { formatTable, type TableColumn } from '../show/index.js';
import { materialsLine } from './materials-text.js';

/** What scatter does to one channel, for people. */
export function scatterStudyText(study: ScatterStudyDocument, width: number): string {
  const { peak, loadFactor, retained, nominal, samples, judged, scatter, allow } = study;
  const columns: TableColumn[] = [
    { heading: '', align: 'left' },
    { heading: 'as drawn', align: 'right' },
    { heading: 'mean', align: 'right' },
    { heading: 'standard deviation', align: 'right' },
    { heading: 'least', align: 'right' },
    { heading: '5 %', align: 'right' },
    { heading: '50 %', align: 'right' },
    { heading: '95 %', align: 'right' },
    { heading: 'most', align: 'right' },
  ];
  const row = (label: string, drawn: number | undefined, spread: Spread, text: (value: number) => string) => {
    const { mean, deviation, least, quantile05, median, quantile95, most } = spread;
    const values = [drawn, mean, deviation, least, quantile05, median, quantile95, most];
    return [label, ...values.map((value) => (value === undefined ? undefined : text(value)))];
  };
  const share = (value: number) => (100 * value).toFixed(1);
  return [
    study.title,
    ...materialsLine(study),
    '',
    describeScatter(scatter),
    `${samples} made channels, seed ${study.seed}; ${describeLost(samples, judged)}`,
    '',
    formatTable(
      columns,
      [
        row('peak, MPa', nominal.peak, peak, (value) => value.toFixed(2)),
        ...(loadFactor ? [row('load factor', nominal.loadFactor, loadFactor, (value) => value.toFixed(3))] : []),
        ...(retained ? [row('strength retained, %', nominal.retained, retained, share)] : []),
      ],
      { width, keys: 1 },
    ),
    study.quantilePeak === undefined
      ? `more than ${percent(1 - scatter.quantile)} % of all made channels are no channels of the joint: no peak that ${percent(scatter.quantile)} % stay within`
      : `${percent(scatter.quantile)} % of all made channels stay within ${study.quantilePeak.toFixed(2)} MPa`,
    `chance to stay within the allowed ${allow} MPa: ${share(study.withinAllowed)} % of all made channels, give or take ${share(standardError(study.withinAllowed, samples))} %`,
    ...(study.startsAtEdge === undefined
      ? []
      : [`failure starts at the channel edge in ${share(study.startsAtEdge)} % of those that were judged`]),
    '',
    ...remarks(study),
    caution,
  ].join('\n');
}

/** A front on the quantile of the peak for people, and what becomes of the front of channels as drawn. */
export function scatterFrontText(front: ScatterFrontDocument, width: number): string {
  const { designs, drawn, samples, scatter, evaluations } = front;
  const quantile = `${percent(scatter.quantile)} % peak`;
  const columns = (first: string): TableColumn[] => [
    { heading: first, align: 'right' },
    { heading: 'family', align: 'left' },
    { heading: 'area', unit: 'mm²', align: 'right' },
    { heading: 'peak as drawn', unit: 'MPa', align: 'right' },
    { heading: quantile, unit: 'MPa', align: 'right' },
    { heading: `of ${samples} judged`, align: 'right' },
  ];
  const cells = (label: string, { family, area, peak, quantilePeak, judged }: ScatterDesignDocument) => [
    label,
    family,
    area.toFixed(3),
    peak.toFixed(2),
    quantilePeak?.toFixed(2),
    String(judged),
  ];
  return [
    front.title,
    ...materialsLine(front),
    '',
    describeScatter(scatter),
    '',
    `front of area against the peak that ${percent(scatter.quantile)} % of made channels stay within:`,
    '',
    formatTable(
      [...columns('design'), { heading: 'comes from', align: 'left' }],
      designs.map((design, i) => [
        ...cells(String(i + 1), design),
        design.origin === 'given' ? 'the front as drawn' : 'improved for scatter',
      ]),
      { width, keys: 2 },
    ),
    'the front of channels as drawn, under the same deviations:',
    '',
    formatTable(
      [...columns('as drawn'), { heading: 'in the front above', align: 'left' }],
      drawn.map((one, i) => [...cells(String(i + 1), one), describePlace(one, front)]),
      { width, keys: 2 },
    ),
    `seed ${front.seed}, ${evaluations} made channels solved`,
    '',
    ...remarks(front),
    caution,
  ].join('\n');
}

function describePlace(one: ScatterFrontDocument['drawn'][number], { designs }: ScatterFrontDocument): string {
  if (one.design === undefined) return 'no: too many samples are no channels';
  const { family, area, quantilePeak } = designs[one.design - 1]!;
  const same = family === one.family && area === one.area && quantilePeak === one.quantilePeak;
  return same ? `design ${one.design}` : `no: design ${one.design} is as large, of less peak`;
}

function describeScatter({ distribution, outline, position, turn, strength, cure }: ResolvedBrief['scatter']): string {
  const sizes = distribution === 'normal' ? 'standard deviations' : 'half ranges';
  return `scatter, ${distribution}, ${sizes}: outline ${outline} mm, position ${position} mm, turn ${turn}°, strength ${percent(strength)} %, cure ${percent(cure)} %`;
}

function describeLost(samples: number, judged: number): string {
  if (judged === samples) return 'all of them are channels of the joint';
  return `${samples - judged} of them cross themselves or each other, or come too near to the laminate, and were not judged: they count as beyond any peak`;
}

function remarks({ cautions }: ScatterStudyDocument | ScatterFrontDocument): string[] {
  return [
    ...cautions.map((text) => `note: ${text}`),
    'note: the sizes of scatter are those of the brief (section scatter), whose defaults are examples: replace them by your own; stiffness does not scatter',
  ];
}

/**
 * Of a share that was counted in so many samples; two more of both kinds keep it above 0 where all samples agree (Agresti & Coull, Am. Stat. 52
 * (1998) 119-126).
 */
function standardError(share: number, samples: number): number {
  const centred = (share * samples + 2) / (samples + 4);
  return Math.sqrt((centred * (1 - centred)) / (samples + 4));
}

const percent = (share: number) => String(Number((100 * share).toPrecision(3)));
