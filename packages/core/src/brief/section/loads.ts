import { expectation, quantity, section, userName, type Zod } from '../../input/index.js';

/** Section `loads`: what acts, at its given size. A load that is left out does not act. */
export function loadsSection(z: Zod) {
  const stress = (sentence: string) =>
    quantity(z, { unit: 'MPa', atLeast: -10_000, atMost: 10_000, sentence }).default(0);
  const force = (sentence: string) =>
    quantity(z, { unit: 'N/mm', atLeast: -100_000, atMost: 100_000, sentence }).default(100);
  return section(
    z,
    {
      pull: section(
        z,
        { force: force('Vertical force on the web top, per length of joint.') },
        'The web is pulled off the skin.',
      ).optional(),
      side: section(
        z,
        { force: force('Horizontal force on the web top, per length of joint; positive to the right.') },
        'The web is pushed sideways.',
      ).optional(),
      moment: section(
        z,
        {
          moment: quantity(z, {
            unit: 'N mm/mm',
            atLeast: -1_000_000,
            atMost: 1_000_000,
            sentence: 'Moment at both skin ends, per length of joint; positive puts the top of the skin in tension.',
          }).default(500),
        },
        'The skin is bent.',
      ).optional(),
      cure: section(
        z,
        {
          deltaT: quantity(z, {
            unit: 'K',
            atLeast: -1000,
            atMost: 1000,
            sentence: 'Temperature change from the stress-free state; negative for cooling down after cure.',
          }).default(-150),
        },
        'The joint cools down from its cure.',
      ).optional(),
      pressure: section(
        z,
        {
          pressure: quantity(z, {
            unit: 'MPa',
            atLeast: 0,
            atMost: 1000,
            sentence: 'Pressure of what is in the channel.',
          }).default(0.5),
        },
        'The channel is under pressure.',
      ).optional(),
      farField: section(
        z,
        {
          sx: stress('Stress along x far from the channel.'),
          sy: stress('Stress along y far from the channel.'),
          txy: stress('Shear stress far from the channel.'),
        },
        'Stress in a plate far from the channel (host.kind: plate).',
      ).optional(),
    },
    'What acts on the joint. A load that is left out does not act.',
  );
}

/** Section `cases`: name -> factor per load. */
export function casesSection(z: Zod) {
  const factor = (load: string) =>
    quantity(z, {
      unit: '1',
      atLeast: -10_000,
      atMost: 10_000,
      sentence: `How many times the load ${load} acts, at its size under loads; left out, it does not act.`,
    }).optional();
  return z
    .record(
      userName(z),
      section(
        z,
        {
          pull: factor('pull'),
          side: factor('side'),
          moment: factor('moment'),
          cure: factor('cure'),
          pressure: factor('pressure'),
          farField: factor('farField'),
        },
        'One state to survive: a factor per load.',
      ),
      { error: () => expectation('a mapping of case to factors', 'write, for example, pull-off: { pull: 1 }') },
    )
    .optional()
    .meta({
      description:
        'Load cases to survive, each a factor per load; the peak of a channel is the worst over them. Default: one case per load, alone, with factor 1.',
    });
}
