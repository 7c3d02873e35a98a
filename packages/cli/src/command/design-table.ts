import { formatTable, type TableColumn } from '../show/index.js';
import type { DesignDocument } from '../task/index.js';

/** A row of a table of designs. */
export interface DesignRow {
  /** Number of the design, or what else it is called. */
  readonly label: string;
  readonly design: DesignDocument;
}

/** Designs with their figures, each against the reference: a table for people. */
export function formatDesigns(
  heading: string,
  rows: readonly DesignRow[],
  reference: DesignDocument,
  width: number,
): string {
  const cases = Object.keys(reference.cases);
  const columns: TableColumn[] = [
    { heading, align: 'right' },
    { heading: 'family', align: 'left' },
    { heading: 'area', unit: 'mm²', align: 'right' },
    { heading: 'area / reference', align: 'right' },
    { heading: 'peak', unit: 'MPa', align: 'right' },
    { heading: 'peak / reference', align: 'right' },
    ...(cases.length > 1
      ? cases.map((name): TableColumn => ({ heading: `peak ${name}`, unit: 'MPa', align: 'right' }))
      : []),
    { heading: 'wall', unit: 'mm', align: 'right' },
    { heading: 'edge radius', unit: 'mm', align: 'right' },
  ];
  return formatTable(
    columns,
    rows.map(({ label, design }) => [
      label,
      design.family,
      design.area.toFixed(3),
      (design.area / reference.area).toFixed(2),
      design.peak.toFixed(1),
      (design.peak / reference.peak).toFixed(2),
      ...(cases.length > 1 ? cases.map((name) => design.cases[name]!.peak.toFixed(1)) : []),
      // A plate has no border.
      Number.isFinite(design.wall) ? design.wall.toFixed(3) : undefined,
      design.minEdgeRadius.toFixed(3),
    ]),
    { width, keys: 2 },
  );
}

/** Places of at most `count` designs, spread evenly over their range in area, both ends among them. */
export function evenlySpread(designs: readonly { readonly area: number }[], count: number): number[] {
  if (designs.length <= count) return designs.map((_, i) => i);
  const areas = designs.map(({ area }) => area);
  const least = Math.min(...areas);
  const step = (Math.max(...areas) - least) / (count - 1);
  const chosen = new Set<number>();
  for (let k = 0; k < count; k++) {
    const wanted = least + k * step;
    let nearest = 0;
    areas.forEach((area, i) => {
      if (Math.abs(area - wanted) < Math.abs(areas[nearest]! - wanted)) nearest = i;
    });
    chosen.add(nearest);
  }
  return [...chosen].sort((a, b) => areas[a]! - areas[b]!);
}
