/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { tableMaker } from './tables.js';

/** Returns a function that sets the headline figures of a channel beside those of another one. */
export function channelFacts(
  table: ReturnType<typeof tableMaker>,
  { scale: { allow } }: PageData,
): (channel: PageChannel, beside: PageChannel | undefined) => HTMLElement {
  interface Figure {
    readonly name: string;
    readonly of: (channel: PageChannel) => number | undefined;
    readonly text: (value: number) => string;
    /** A ratio of it says something. */
    readonly ratio?: true;
  }
  const figures: readonly Figure[] = [
    { name: 'area, mm²', of: ({ area }) => area, text: (v) => v.toPrecision(4), ratio: true },
    {
      name: 'flow, mm⁴',
      of: ({ conductance }) => conductance,
      text: (v) => v.toPrecision(4),
      ratio: true,
    },
    { name: 'peak stress, MPa', of: ({ peak }) => peak, text: (v) => v.toFixed(1), ratio: true },
    { name: 'known outline beside it, MPa', of: ({ strength }) => strength?.beside, text: (v) => v.toFixed(1) },
    {
      name: 'strength retained, %',
      of: ({ strength }) => strength && 100 * strength.retained,
      text: (v) => v.toFixed(1),
      ratio: true,
    },
    {
      name: 'load factor',
      of: ({ strength }) => strength?.loadFactor,
      text: (v) => v.toFixed(2),
      ratio: true,
    },
    { name: 'pitch, from middle to middle, mm', of: ({ pitch }) => pitch, text: (v) => v.toFixed(3) },
    { name: 'least wall, mm', of: ({ wall }) => wall, text: (v) => v.toFixed(3) },
    { name: 'least edge radius, mm', of: ({ minEdgeRadius }) => minEdgeRadius, text: (v) => v.toFixed(3) },
  ];
  const written = (value: number | undefined, text: (value: number) => string) =>
    value === undefined || !Number.isFinite(value) ? '–' : text(value);

  return (channel, beside) => {
    const rows = figures
      .filter(({ of }) => of(channel) !== undefined)
      .map(({ name, of, text, ratio }) => {
        const [own, other] = [of(channel), beside && of(beside)];
        const times = own !== undefined && other !== undefined && other > 0 && ratio ? own / other : undefined;
        return [
          name,
          written(own, text),
          ...(beside === undefined
            ? []
            : [written(other, text), times === undefined ? '' : `×\u00a0${Number(times.toPrecision(3))}`]),
        ];
      });
    const start = [channel, ...(beside === undefined ? [] : [beside])].map(({ strength }) => strength?.startsAt ?? '–');
    const next = [channel, ...(beside === undefined ? [] : [beside])].map(({ strength }) => strength?.next ?? '–');
    if (channel.strength !== undefined)
      rows.push(
        ['failure starts', ...start, ...(beside === undefined ? [] : [''])],
        ['next fails at, times the load', ...next, ...(beside === undefined ? [] : [''])],
      );
    const made = table(['', channel.name, ...(beside === undefined ? [] : [beside.name, 'ratio'])], rows);
    made.classList.replace('blocks', 'facts');
    if (allow !== undefined && channel.peak > allow) made.classList.add('beyond-allowed');
    return made;
  };
}
