/// <reference lib="dom" />

/** Keeps `host` filled with what `draw` makes for its width, anew whenever that changes; returns a function that draws at once. */
export function fitWidth(host: HTMLElement, draw: (width: number) => void): () => void {
  let drawn = 0;
  const redraw = () => {
    drawn = host.clientWidth;
    if (drawn > 0) draw(drawn);
  };
  new ResizeObserver(() => {
    if (host.clientWidth !== drawn) redraw();
  }).observe(host);
  return redraw;
}

export type FitWidth = typeof fitWidth;
