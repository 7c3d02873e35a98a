import type { PageChannel, PageData } from '../data.js';
import type { PackedChannel, PackedPage } from '../packed-page.js';
import type { UnpackBytes } from './unpack-bytes.js';

/**
 * The data of a page.
 *
 * @param packed of its element `report-data`
 */
export async function readPage(packed: string, unpack: UnpackBytes): Promise<PageData> {
  const points = (packed: string) => {
    let [x, y, dx, dy] = [0, 0, 0, 0];
    const steps = packed === '' ? [] : packed.split(' ').map((step) => Number.parseInt(step, 36));
    return Array.from({ length: steps.length / 2 }, (_, i) => {
      dx += steps[2 * i]!;
      dy += steps[2 * i + 1]!;
      x += dx;
      y += dy;
      return [x / 1e6, y / 1e6] as const;
    });
  };
  const channel = (one: PackedChannel): PageChannel => ({
    ...one,
    parameters: JSON.parse(one.parameters),
    outline: points(one.outline),
  });
  const { designs, reference, ...rest } = JSON.parse(new TextDecoder().decode(await unpack(packed))) as PackedPage;
  return {
    ...rest,
    designs: designs.map(({ files, ...one }) => ({
      ...channel(one),
      ...(files === undefined
        ? {}
        : { files: { ...files, vertices: points(files.vertices), curves: points(files.curves) } }),
    })),
    ...(reference === undefined ? {} : { reference: channel(reference) }),
  };
}

export type ReadPage = typeof readPage;
