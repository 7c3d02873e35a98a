/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';

/** Returns a function that paints a field within its room and around its channel, in a given width. */
export function fieldDrawing(
  make: MakeElement,
  { fields, section, ramp }: PageData,
): (cells: string, channel: PageChannel | undefined, hostWidth: number) => HTMLElement {
  const colours = ramp.map((colour) => [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16)));

  const painted = (cells: string, columns: number, rows: number) => {
    const canvas = make('canvas', { width: columns, height: rows }) as HTMLCanvasElement;
    const image = new ImageData(columns, rows);
    let byte = 0;
    for (let i = 0; i < cells.length; i++) {
      // As `fieldSteps` writes them.
      const step = cells.charCodeAt(i) - 0x100;
      byte = (byte + (step % 2 === 0 ? step / 2 : -(step + 1) / 2)) & 255;
      if (byte === 0) continue;
      const place = ((byte - 1) / 254) * (colours.length - 1);
      const low = colours[Math.floor(place)]!;
      const high = colours[Math.ceil(place)]!;
      for (const c of [0, 1, 2]) image.data[4 * i + c] = low[c]! + (place % 1) * (high[c]! - low[c]!);
      image.data[4 * i + 3] = 255;
    }
    canvas.getContext('2d')!.putImageData(image, 0, 0);
    return canvas;
  };

  return (cells, channel, hostWidth) => {
    const { box, columns, rows } = fields!;
    const [width, height] = [hostWidth, (hostWidth * box.height) / box.width];
    const dense = Math.min(3, window.devicePixelRatio || 1);
    const canvas = make('canvas', {
      ...{ width: Math.round(dense * width), height: Math.round(dense * height) },
      ...{ style: `width: ${width}px; height: ${height}px`, role: 'img' },
      'aria-label': `stress around ${channel?.name ?? 'no channel'}`,
    }) as HTMLCanvasElement;
    const pen = canvas.getContext('2d')!;
    const size = (dense * width) / box.width;
    pen.setTransform(size, 0, 0, size, -size * box.left, -size * box.top);
    const edges =
      channel === undefined ? [] : [channel.outline, ...(channel.others ?? []).map(({ outline }) => outline)];
    const outlines = edges.map((edge) => `M${edge.map(([x, y]) => `${x} ${-y}`).join('L')}Z`);
    const clip = new Path2D(`${section!.room}${outlines.join('')}`);
    pen.save();
    pen.clip(clip, 'evenodd');
    pen.imageSmoothingEnabled = true;
    pen.drawImage(painted(cells, columns, rows), box.left, box.top, box.width, box.height);
    pen.restore();
    pen.lineWidth = dense / size;
    pen.strokeStyle = getComputedStyle(document.body).color;
    pen.stroke(clip);
    return canvas;
  };
}
