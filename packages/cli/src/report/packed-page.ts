import type { Point } from '../picture/index.js';
import type { PageChannel, PageData, ReportDesign } from './data.js';

/** A channel with points as steps and parameters as text: a third of the bytes, and every digit. */
export type PackedChannel = Omit<PageChannel, 'outline' | 'parameters'> & {
  /** By how much each step from point to point differs from the one before, in millionths of a mm, x and y by turns, to the base 36. */
  readonly outline: string;
  /** JSON, so that nothing rounds them. */
  readonly parameters: string;
};

/** `PageData` as the page holds it. */
export type PackedPage = Omit<PageData, 'designs' | 'reference'> & {
  readonly designs: ReadonlyArray<
    PackedChannel & {
      readonly files?: Omit<NonNullable<ReportDesign['files']>, 'vertices' | 'curves'> & {
        readonly vertices: string;
        readonly curves: string;
      };
    }
  >;
  readonly reference?: PackedChannel;
};

/** What `readPage` unpacks. */
export function packPage({ designs, reference, ...rest }: PageData): PackedPage {
  return {
    ...rest,
    designs: designs.map(({ files, ...one }) => ({
      ...packChannel(one),
      ...(files === undefined
        ? {}
        : { files: { ...files, vertices: packPoints(files.vertices), curves: packPoints(files.curves) } }),
    })),
    ...(reference === undefined ? {} : { reference: packChannel(reference) }),
  };
}

const packChannel = (one: PageChannel): PackedChannel => ({
  ...one,
  outline: packPoints(one.outline),
  parameters: JSON.stringify(one.parameters),
});

function packPoints(points: readonly Point[]): string {
  let last = [0, 0];
  let before = [0, 0];
  return points
    .map(([x, y]) => {
      const here = [Math.round(1e6 * x), Math.round(1e6 * y)];
      const step = here.map((value, i) => value - last[i]!);
      const text = step.map((value, i) => (value - before[i]!).toString(36)).join(' ');
      [last, before] = [here, step];
      return text;
    })
    .join(' ');
}
