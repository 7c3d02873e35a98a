// Briefs of random T-joints, each kind unusual in its own way, and outlines at the limits of wall and edge radius in them.
import {
  channelBorder,
  channelRoom,
  createCurveNodes,
  createFamily,
  createOutlineMeasure,
  measureOutline,
} from '@lumenfront/core';

/** Multiplicative congruential generator (Park & Miller 1988), stirred so that neighbouring seeds have nothing in common. */
export function randomFrom(seed) {
  let state = (seed * 48271 + 11) % 2147483647;
  const next = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  for (let i = 0; i < 8; i++) next();
  const between = (a, b) => a + (b - a) * next();
  /** Evenly in its logarithm. */
  const scaled = (a, b) => a * (b / a) ** next();
  const whole = (a, b) => Math.floor(between(a, b + 1));
  const one = (list) => list[Math.floor(next() * list.length)];
  return { next, between, scaled, whole, one };
}

const strengths = { transverseTension: 50, interlaminarShear: 60 };
const isotropic = (E, nu, alpha) => ({ E, nu, alpha, ...strengths });
const ply = (E1, E2, nu12, nu23, G12, alpha1, alpha2) => ({ E1, E2, nu12, nu23, G12, alpha1, alpha2, ...strengths });
/** Moduli and ratios of a carbon and a glass ply and an epoxy as handbooks have them, from memory. */
const carbon = ply(126000, 11000, 0.28, 0.4, 6600, -1e-6, 26e-6);
const glass = ply(39000, 11500, 0.27, 0.42, 4300, 7.5e-6, 25e-6);
const epoxy = isotropic(3400, 0.36, 58e-6);

/** What a joint is in all that its kind leaves alone; lengths in mm. */
function usual(random) {
  const R = random.between(3, 12);
  return {
    R,
    plies: random.whole(4, 10),
    /** Thickness of the overlaminate over the bend radius. */
    slender: random.between(0.15, 0.5),
    skin: random.between(0.3, 1) * R,
    web: random.between(3, 6) * R,
    foot: random.between(2, 5) * R,
    beyond: random.between(1, 6) * R,
    laminate: random.one([carbon, glass]),
    filler: random.one([carbon, glass, epoxy]),
    support: random.one(['clamped', 'simple']),
    /** Wall and edge radius over the bend radius. */
    wall: random.between(0.02, 0.06),
    edge: random.between(0.02, 0.06),
    skinLayup: random.one(['quasi-isotropic', [0, 90], [45, -45, 0, 90]]),
  };
}

/** What each kind changes. */
const changes = {
  ordinary: () => ({}),
  'stiff filler': (random) => ({ filler: isotropic(random.scaled(15000, 200000), random.between(0.2, 0.35), 12e-6) }),
  'soft filler': (random) => ({ filler: isotropic(random.scaled(20, 1000), random.between(0.3, 0.45), 8e-5) }),
  'thin wall': (random) => ({ wall: random.scaled(0.005, 0.012), edge: random.between(0.01, 0.02) }),
  'sharp edge': (random) => ({ edge: random.scaled(0.004, 0.012) }),
  'thin overlaminate': (random) => ({ plies: 2, slender: random.between(0.03, 0.08) }),
  'one ply': (random) => ({ plies: 1, slender: random.between(0.02, 0.1) }),
  'tight free radius': (random) => ({ slender: random.between(0.85, 0.97) }),
  'thick overlaminate': (random) => ({ plies: random.whole(30, 60), slender: random.between(0.5, 0.9) }),
  'thin skin': (random) => ({ skin: random.between(0.06, 0.15) * 5 }),
  'short web': (random) => ({ web: random.between(0.2, 0.8) * 4 }),
  'short foot': (random) => ({ foot: random.between(0.2, 0.8) * 4, beyond: random.one([0, 3]) }),
  'nearly incompressible filler': (random) => ({
    filler: isotropic(random.scaled(100, 4000), random.between(0.46, 0.498), 8e-5),
  }),
  'negative ratio': (random) => ({ filler: isotropic(random.scaled(500, 8000), random.between(-0.6, -0.05), 5e-5) }),
  'large radius': (random) => ({ R: random.scaled(15, 200) }),
  'small radius': (random) => ({ R: random.scaled(0.5, 2) }),
  'long span, simple': (random) => ({ support: 'simple', beyond: random.between(60, 150) }),
  'resin plies': (random) => ({ laminate: isotropic(random.scaled(1000, 5000), 0.35, 6e-5) }),
  'any stiffness': (random) => {
    const E = 3400 * random.scaled(1e-3, 1e3);
    return { filler: isotropic(Math.min(E, 1.9e6), random.between(0.1, 0.45), 3e-5) };
  },
  'strong fibres': (random) => {
    const E2 = random.scaled(2000, 8000);
    return { laminate: ply(random.scaled(200000, 800000), E2, 0.3, 0.45, random.between(0.3, 0.6) * E2, -1e-6, 3e-5) };
  },
};

export const kindsOfTees = Object.keys(changes);

/** The data of a brief whose joint is of one kind, all loads, each a case of its own. */
export function randomTee(kind, random) {
  const base = usual(random);
  const tee = { ...base, ...changes[kind](random) };
  const { R, plies, slender, laminate, filler, wall, edge } = tee;
  const total = slender * R;
  return {
    host: {
      kind: 'tee',
      bendRadius: R,
      overlaminate: {
        layup: Array.from({ length: plies }, () => random.one([0, 0, 90, 45, -45])),
        plyThickness: total / plies,
        ply: 'laminate',
      },
      web: { height: tee.web },
      foot: { length: tee.foot },
      skin: {
        thickness: tee.skin,
        halfSpan: R + tee.foot + tee.beyond,
        ply: 'laminate',
        layup: tee.skinLayup,
      },
      filler: { ply: 'filler' },
      support: tee.support,
    },
    materials: { laminate, filler },
    loads: {
      pull: { force: 10 },
      side: { force: 3 },
      moment: { moment: 50 },
      cure: { deltaT: -100 },
      pressure: { pressure: 0.5 },
    },
    cases: {
      pull: { pull: 1 },
      side: { side: 1 },
      moment: { moment: 1 },
      cure: { cure: 1 },
      pressure: { pressure: 1 },
    },
    channel: { wall: wall * R, edgeRadius: edge * R, families: ['ellipse', 'teardrop', 'spline', 'inset'] },
  };
}

const measure = createOutlineMeasure();
const nodes = createCurveNodes(512);

/** Kinds of outlines at the limits. */
export const kindsOfOutlines = ['top tip', 'side tip', 'at a bend', 'along the base', 'large', 'waves', 'anywhere'];

/** An admissible outline at the limits of a resolved brief, `{ family, mirror, values }`; undefined where none was found. */
export function outlineAtLimits(kind, { joint, channel }, random) {
  const border = channelBorder({ joint, channel });
  const { bendRadius: R } = joint;
  const { wall, edgeRadius } = channel;
  const family = (name, mirror) => createFamily(name, channelRoom({ joint, channel: { ...channel, mirror } }));
  const keeps = (made, values) => {
    made.place(values, nodes);
    measureOutline(nodes, border, measure);
    return measure.simple && measure.wall >= wall && measure.edgeRadius >= edgeRadius;
  };
  /** The last of the values from `from` (kept) to `to` that is kept. */
  const furthest = (made, valuesAt, from, to) => {
    if (!keeps(made, valuesAt(from))) return undefined;
    let [good, bad] = [from, to];
    for (let i = 0; i < 40; i++) {
      const middle = (good + bad) / 2;
      if (keeps(made, valuesAt(middle))) good = middle;
      else bad = middle;
    }
    return { family: made, values: valuesAt(good) };
  };
  /** Parameters of a family by their names; the others in the middle. */
  const named = (made, given) => made.parameters.map(({ name, lower, upper }) => given[name] ?? (lower + upper) / 2);
  const r = edgeRadius * random.between(1.001, 1.5);
  switch (kind) {
    case 'top tip': {
      const made = family('ellipse', true);
      return furthest(made, (y) => named(made, { y, width: 2 * r, height: 2 * r }), R / 4, R);
    }
    case 'side tip': {
      const made = family('ellipse', false);
      return furthest(
        made,
        (x) => named(made, { x, y: wall * 1.0001 + r, width: 2 * r, height: 2 * r, turn: 0 }),
        0,
        R,
      );
    }
    case 'at a bend': {
      const made = family('ellipse', false);
      const slender = random.between(1, 4);
      const at = random.between(0.1, 0.3);
      const turn = random.between(-80, 0);
      return furthest(
        made,
        (size) => named(made, { x: at * R, y: (0.35 - 0.4 * at) * R, width: size, height: size / slender, turn }),
        2.02 * edgeRadius * slender ** 2,
        R,
      );
    }
    case 'along the base': {
      const made = family('ellipse', true);
      const half = random.between(0.2, 0.6) * R;
      const high = Math.max(edgeRadius, Math.sqrt(half * edgeRadius)) * 1.001;
      return furthest(
        made,
        (width) => {
          const b = Math.max(edgeRadius * 1.001, Math.sqrt((width / 2) * edgeRadius) * 1.001, high / 2);
          return named(made, { y: wall * 1.0001 + b, width, height: 2 * b });
        },
        2.1 * edgeRadius,
        2 * half,
      );
    }
    case 'large': {
      const made = family('inset', random.next() < 0.6);
      const share = random.between(0, 0.25);
      const values = made.parameters.map(({ name, lower, upper }) =>
        name === 'x' || name === 'turn' ? 0 : lower + share * random.next() * (upper - lower),
      );
      return keeps(made, values) ? { family: made, values } : undefined;
    }
    default: {
      const made = family(
        kind === 'waves' ? 'spline' : random.one(['ellipse', 'teardrop', 'spline', 'inset']),
        random.next() < 0.5,
      );
      // From all over the bounds to near their middle, where wavy families are admissible more often.
      for (let tries = 0; tries < 4000; tries++) {
        const spread = random.next();
        const values = made.parameters.map(
          ({ lower, upper }) => (lower + upper) / 2 + spread * (upper - lower) * (random.next() - 0.5),
        );
        if (keeps(made, values)) return { family: made, values };
      }
      return undefined;
    }
  }
}
