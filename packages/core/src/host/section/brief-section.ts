import type { z } from 'zod/mini';
import { InputError } from '../../errors.js';
import {
  choice,
  expectation,
  list,
  nearestName,
  type ProblemList,
  quantity,
  section,
  textLine,
  userName,
  type Zod,
} from '../../input/index.js';
import type { HostBrief, MaterialBook } from '../contract.js';
import { doubtsAboutAngles } from '../layup-field.js';
import { materialName } from '../material-name.js';
import { inFile, readSection } from './body.js';
import type { CurveForce, SectionJoint, SurfaceMaterial } from './joint.js';
import { sectionLoads } from './loads.js';
import { readMesh } from './read-mesh.js';

const place = (z: Zod, sentence: string) => quantity(z, { unit: 'mm', atLeast: -100_000, atMost: 100_000, sentence });

const direction = (z: Zod, sentence: string) => quantity(z, { unit: '1', atLeast: -1000, atMost: 1000, sentence });

const tangentField = (z: Zod) =>
  z.meta(
    z.default(
      z.union(
        [
          quantity(z, { unit: 'deg', atLeast: -360, atMost: 360, sentence: 'From x, counter-clockwise.' }),
          section(
            z,
            {
              around: z.meta(
                z.tuple([place(z, 'Centre, across.'), place(z, 'Centre, up.')], {
                  error: () => expectation('a point [x, y] in mm', 'write, for example, around: [5, 5]'),
                }),
                { description: 'Plies bend round this point [x, y]. Unit: mm.', unit: 'mm' },
              ),
            },
            'Round a point.',
          ),
          section(
            z,
            { along: z.meta(userName(z), { description: 'Plies run as this named curve does, where it is nearest.' }) },
            'Along a named curve.',
          ),
        ],
        {
          error: () =>
            expectation(
              'an angle from x in degrees, or a mapping of around or along',
              'write, for example, tangent: 90, tangent: { around: [5, 5] } or tangent: { along: bend }',
            ),
        },
      ),
      0,
    ),
    {
      description:
        'Direction of the plies in the section, from which `angle` counts: degrees from x, round a point, or along a named curve.',
    },
  );

function surfaceField(z: Zod) {
  return section(
    z,
    {
      material: materialName(z, 'Material of the surface, a name under `materials` or a built-in one.'),
      angle: z.meta(
        z.optional(
          z.union(
            [
              quantity(z, {
                unit: 'deg',
                atLeast: -90,
                atMost: 90,
                sentence: 'As in a layup: 0 in the section, 90 along the channel.',
              }),
              z.meta(z.literal('quasi-isotropic'), { description: 'Smeared over equal shares of 0, 45, -45 and 90.' }),
            ],
            {
              error: () =>
                expectation('an angle of -90 to 90 degrees, or quasi-isotropic', 'write, for example, angle: 45'),
            },
          ),
        ),
        {
          description:
            'Angle of the fibres from the tangent of the section, as in a layup: 0 in the section, 90 along the channel; or quasi-isotropic. Needed but for isotropic materials and the filler.',
        },
      ),
      tangent: tangentField(z),
    },
    'What a named surface of the mesh is made of.',
  );
}

/** Section `host` of a section that is meshed elsewhere. */
function sectionSection(z: Zod) {
  const records = (what: string, example: string) => ({
    error: () => expectation(what, `write, for example, ${example}`),
  });
  return section(
    z,
    {
      kind: z.meta(z.literal('section'), { description: 'A section of any form, meshed elsewhere.' }),
      mesh: textLine(
        z,
        250,
        'File with the mesh, beside the brief: MSH 4.1 text, elements of second order, every surface named, mm.',
      ),
      filler: z.meta(userName(z), {
        description:
          'Surface of the mesh that channels lie in: of resin, or of fibres along the channel. In one piece, without holes.',
      }),
      surfaces: z.meta(
        z.record(
          userName(z),
          surfaceField(z),
          records('a mapping of surface to material', 'web: { material: carbon, angle: 0, tangent: 90 }'),
        ),
        { description: 'Every named surface of the mesh, and what it is made of.' },
      ),
      supports: z.meta(
        z.default(
          z.record(
            userName(z),
            section(
              z,
              {
                hold: list(z, choice(z, ['x', 'y'], 'A displacement: across or up.'), {
                  of: 'x and y',
                  atLeast: 1,
                  atMost: 2,
                  sentence: 'Displacements that the curve keeps: [x, y], [x] or [y].',
                }),
                under: z.default(
                  choice(
                    z,
                    ['loads', 'all'],
                    'loads: a cure finds the part free; all: a cure finds the support as well, as a plane of symmetry.',
                  ),
                  'loads',
                ),
              },
              'What a named curve keeps.',
            ),
            records('a mapping of curve to what it keeps', 'flange-end: { hold: [x, y] }'),
          ),
          {},
        ),
        { description: 'Named curves that are held.' },
      ),
      loads: z.meta(
        z.default(
          z.record(
            userName(z),
            z.meta(
              z.record(
                userName(z),
                z.meta(
                  z.tuple(
                    [
                      direction(z, 'Across.'),
                      direction(z, 'Up.'),
                      z.optional(
                        quantity(z, {
                          unit: 'mm',
                          atLeast: -10_000,
                          atMost: 10_000,
                          sentence: 'Moment, counter-clockwise.',
                        }),
                      ),
                    ],
                    records('a direction [x, y], or [x, y, moment]', 'web-top: [0, 1]'),
                  ),
                  {
                    description:
                      'What acts on the curve at a load of 1 N/mm: force across and up, N/mm, spread evenly along it; a third number is a moment, N mm/mm, positive counter-clockwise, with the linear traction of bending.',
                  },
                ),
                records('a mapping of curve to direction', '{ web-top: [0, 1] }'),
              ),
              { description: 'Curves that the load acts on, each with its direction.' },
            ),
            records('a mapping of load to curves', 'pull: { web-top: [0, 1] }'),
          ),
          {},
        ),
        {
          description:
            'Loads of your own: by name, the named curves that carry them and their directions. Their sizes stand under `loads`.',
        },
      ),
    },
    'A section of any form, from a mesh made elsewhere.',
  );
}

/** The section after its schema. */
export type SectionSection = z.output<ReturnType<typeof sectionSection>>;

/** Adds problems where there can be no such section; then there is none. */
function resolveSection(host: SectionSection, book: MaterialBook, problems: ProblemList): SectionJoint | undefined {
  const before = problems.problems.length;
  const surfaces = Object.fromEntries(
    Object.entries(host.surfaces).map(([name, surface]) => [name, resolveSurface(name, surface, host, book, problems)]),
  );
  for (const name of Object.keys(host.loads))
    if (sectionLoads.some((load) => load.name === name))
      problems.add(
        ['host', 'loads', name],
        'a name that no other load has',
        `rename it: ${name} is a load of every section`,
        name,
      );
  for (const [name, forces] of Object.entries(host.loads))
    if (!Object.values(forces).some((parts) => parts.some((part) => part !== undefined && part !== 0)))
      problems.add(
        ['host', 'loads', name],
        'a force or a moment on at least one curve',
        'write, for example, { web-top: [0, 1] }',
        'none',
      );
  const mesh = book.text(host.mesh, ['host', 'mesh']);
  if (mesh === undefined) return undefined;
  const joint: SectionJoint = {
    kind: 'section',
    mesh: { file: host.mesh, ...mesh },
    filler: host.filler,
    surfaces,
    supports: Object.entries(host.supports).map(([curve, { hold, under }]) => ({ curve, hold, under })),
    loads: Object.fromEntries(
      Object.entries(host.loads).map(([name, forces]) => [
        name,
        Object.entries(forces).map(
          ([curve, [x, y, moment]]): CurveForce => ({ curve, force: [x, y], ...(moment ? { moment } : {}) }),
        ),
      ]),
    ),
  };
  try {
    checkNames(host, problems, mesh.text);
    if (problems.problems.length > before) return undefined;
    readSection(joint);
    return joint;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    // The faults of the mesh stand in its own file, all others in the brief.
    problems.problems.push(...error.problems.filter(({ file }) => file !== undefined));
    problems.adopt(new InputError(error.problems.filter(({ file }) => file === undefined)));
    return undefined;
  }
}

function resolveSurface(
  name: string,
  { material, angle, tangent }: SectionSection['surfaces'][string],
  { filler }: SectionSection,
  book: MaterialBook,
  problems: ProblemList,
): SurfaceMaterial {
  const path = ['host', 'surfaces', name];
  const ply = book.find(material, [...path, 'material']);
  const isotropic = ply.E1 === ply.E2;
  if (name === filler && angle !== undefined && angle !== 90 && !isotropic)
    problems.add(
      [...path, 'angle'],
      '90 in the filler: channels lie in what is isotropic in the section',
      'leave it out, or name another surface as the filler',
    );
  if (angle === undefined && name !== filler && !isotropic)
    problems.add(
      [...path, 'angle'],
      'an angle of the fibres, -90 to 90 degrees, or quasi-isotropic',
      'add it: 0 in the section, 90 along the channel',
    );
  return { ply, angle: name === filler ? 90 : (angle ?? 90), tangent };
}

/** Every surface has a material, and what is named is there. */
function checkNames(host: SectionSection, problems: ProblemList, text: string): void {
  const mesh = inFile(host.mesh, () => readMesh(text));
  const near = (name: string, known: readonly string[]) => {
    const found = nearestName(name, known);
    return found === undefined ? 'correct the name, or name it so in the mesh' : `did you mean '${found}'?`;
  };
  const curves = [...mesh.curves.keys()];
  const unknown = Object.keys(host.surfaces).filter((name) => !mesh.surfaces.includes(name));
  const misspelled = unknown.map((name) => nearestName(name, mesh.surfaces));
  for (const name of mesh.surfaces)
    if (!Object.hasOwn(host.surfaces, name) && !misspelled.includes(name))
      problems.add(
        ['host', 'surfaces'],
        'a material for every surface of the mesh',
        `add ${JSON.stringify(name)}`,
        `none for ${JSON.stringify(name)}`,
      );
  for (const name of unknown)
    problems.add(
      ['host', 'surfaces', name],
      `a surface of the mesh: ${mesh.surfaces.join(', ')}`,
      near(name, mesh.surfaces),
      name,
    );
  if (!mesh.surfaces.includes(host.filler))
    problems.add(
      ['host', 'filler'],
      `a surface of the mesh: ${mesh.surfaces.join(', ')}`,
      near(host.filler, mesh.surfaces),
    );
  const expectCurve = (path: readonly string[], name: string) => {
    if (!curves.includes(name))
      problems.add(
        path,
        `a named curve of the mesh: ${curves.join(', ') || 'there are none'}`,
        near(name, curves),
        name,
      );
  };
  for (const name of Object.keys(host.supports)) expectCurve(['host', 'supports', name], name);
  for (const [load, forces] of Object.entries(host.loads))
    for (const name of Object.keys(forces)) expectCurve(['host', 'loads', load, name], name);
  for (const [name, { tangent }] of Object.entries(host.surfaces))
    if (typeof tangent === 'object' && 'along' in tangent)
      expectCurve(['host', 'surfaces', name, 'tangent', 'along'], tangent.along);
}

/** How briefs tell of a meshed section. */
export const sectionBrief: HostBrief<SectionJoint> = {
  section: sectionSection,
  resolve: resolveSection,
  doubts: ({ surfaces }) =>
    Object.entries(surfaces).flatMap(([name, { angle }]) =>
      typeof angle === 'number' ? doubtsAboutAngles(`host.surfaces.${name}.angle`, [angle]) : [],
    ),
} satisfies HostBrief<SectionJoint, SectionSection>;
