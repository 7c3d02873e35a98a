// Places of a T-joint all over its section, by its geometry alone: what the meshed reference of strength is judged at, whatever
// points the fast model has. Places are those of the host (its right half), each in rows.

const angles = 96;

/** Fractions of a length, closer to its ends. */
const fractions = (count) => Array.from({ length: count + 1 }, (_, k) => (1 - Math.cos((Math.PI * k) / count)) / 2);

/** Depths through a layup, with the layer of each: both faces and some between, the last face left out (it is free or the next layer's). */
function depthsOf(layup, most) {
  const within = Math.max(2, Math.round(most / layup.length));
  let depth = 0;
  return layup.flatMap(({ thickness }, layer) => {
    const from = depth;
    depth += thickness;
    return Array.from({ length: within }, (_, k) => ({ depth: from + (k / within) * thickness, layer }));
  });
}

/** `{ points, rows }` as a reduced model has them; `whole`: the filler, too, which no channel interrupts. */
export function densePlaces(joint, whole) {
  const { bendRadius: R, overlaminate, skin, footLength, webHeight } = joint;
  const t = overlaminate.reduce((sum, { thickness }) => sum + thickness, 0);
  const rows = [];
  const row = (place, layer, along, at) => {
    rows.push(along.map((s) => ({ place, layer, ...at(s) })));
  };
  const arc = (radius) => (phi) => ({
    x: R - radius * Math.sin(phi),
    y: R - radius * Math.cos(phi),
    normalAngle: Math.PI / 2 - phi,
  });
  const up = Math.PI / 2;
  // Between a tip and 0.06 bend radii from it nothing is judged in any case.
  const tip = 0.06;
  const alongArc = fractions(500).map((f) => tip + f * (Math.PI / 2 - 2 * tip));
  row('arc-interface', -1, alongArc, arc(R));
  row(
    'base-interface',
    -1,
    fractions(500).map((f) => f * (1 - tip) * R),
    (x) => ({ x, y: 0, normalAngle: up }),
  );
  const turns = fractions(angles).map((f) => (f * Math.PI) / 2);
  // No nearer than a thickness to where a load comes in, a support holds or a laminate ends.
  const foot = fractions(60).map((f) => R + f * (footLength - t));
  const highest = Math.min(2 * t, webHeight - t);
  const web = highest > 0 ? fractions(40).map((f) => R + f * highest) : [];
  const first = overlaminate[0].thickness / 2;
  // Across, where bend and web, bend and foot meet: the limit around a tip falls between rows.
  let from = 0;
  overlaminate.forEach(({ thickness }, layer) => {
    const depths = fractions(12).map((f) => from + f * thickness);
    const inside = depths.filter((depth) => depth >= first);
    from += thickness;
    row('bend', layer, inside, (depth) => ({ ...arc(R - depth)(0) }));
    row('bend', layer, inside, (depth) => ({ ...arc(R - depth)(Math.PI / 2) }));
    if (highest > 0) row('web', layer, depths, (depth) => ({ x: depth, y: R, normalAngle: 0 }));
    if (footLength > t) row('foot', layer, depths, (depth) => ({ x: R, y: depth, normalAngle: up }));
  });
  for (const { depth, layer } of depthsOf(overlaminate, 40)) {
    if (depth >= first * (1 - 1e-9)) row('bend', layer, turns, arc(R - depth));
    if (footLength > t) row('foot', layer, foot, (x) => ({ x, y: depth, normalAngle: up }));
    row('web', layer, web, (y) => ({ x: depth, y, normalAngle: 0 }));
  }
  const skinThickness = skin.reduce((sum, { thickness }) => sum + thickness, 0);
  const furthest = Math.min(R + footLength - t, joint.skinHalfSpan - skinThickness);
  // Stress rises towards the support: the limit itself belongs to it.
  const under = [...[...fractions(80).map((f) => f * R), ...foot.slice(1)].filter((x) => x < furthest), furthest];
  const top = Math.min(0.01 * R, skin[0].thickness / 2);
  const deep = depthsOf(skin, 24).filter(({ depth }) => depth > top);
  for (const { depth, layer } of [{ depth: top, layer: 0 }, ...deep])
    row('skin', layer, under, (x) => ({ x, y: -depth, normalAngle: up }));
  if (furthest > R) {
    let above = 0;
    skin.forEach(({ thickness }, layer) => {
      const depths = fractions(16).map((f) => above + f * thickness);
      above += thickness;
      row(
        'skin',
        layer,
        depths.filter((depth) => depth >= top),
        (depth) => ({ x: R, y: -depth, normalAngle: up }),
      );
    });
  }
  if (whole) {
    const steps = 60;
    const [least, wall] = [R / steps, 0.004 * R];
    for (let y = wall; y < R; y += least)
      row(
        'filler',
        -1,
        Array.from({ length: steps + 1 }, (_, k) => (k / steps) * R).filter((x) => Math.hypot(R - x, R - y) > R + wall),
        (x) => ({ x, y, normalAngle: up }),
      );
  }
  const given = rows.filter(({ length }) => length > 0);
  return { points: given.flat(), rows: given.map(({ length }) => length) };
}
