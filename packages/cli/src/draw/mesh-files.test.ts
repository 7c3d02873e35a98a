import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCurveNodes, ellipseFamily, type MeshedSection, meshedSection, readBrief } from '@lumenfront/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toMsh } from './msh.js';
import { toVtu } from './vtu.js';

/** Debian's: apt-get install -y python3-meshio gmsh */
const python = '/usr/bin/python3';
const hasReader = spawnSync(python, ['-c', 'import meshio']).status === 0;
const hasGmsh = spawnSync('gmsh', ['-version']).status === 0;

/** What the reader found, as JSON. */
const reader = `
import json, sys, meshio, numpy as np
mesh = meshio.read(sys.argv[1])
[cells] = [block.data for block in mesh.cells if block.data.shape[1] == 10][:1]
corners = mesh.points[cells[:, :3]]
a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
print(json.dumps({
  'points': len(mesh.points), 'cells': sum(len(block.data) for block in mesh.cells if block.data.shape[1] == 10),
  'area': float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum() / 2),
  'names': sorted(mesh.point_data), 'groups': sorted(mesh.field_data),
  'largest': {name: float(values[:, 0].max()) for name, values in mesh.point_data.items()},
}))`;

describe('a meshed section, solved', () => {
  const radius = 0.5;
  let folder: string;
  let section: MeshedSection;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'lumenfront-mesh-'));
    const { joint, loads, cases } = await readBrief('host: { kind: plate }\nloads: { farField: { sx: 10 } }\n');
    const nodes = createCurveNodes(128);
    const room = { mirror: true, xMin: -2, xMax: 2, yMin: -2, yMax: 2, edgeRadius: 0 };
    ellipseFamily(room).place([0, 2 * radius, 2 * radius], nodes);
    section = meshedSection(joint, loads, cases, nodes);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const read = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    // The reader prints a line of its own first.
    const lines = execFileSync(python, ['-c', reader, join(folder, name)], { encoding: 'utf8' })
      .trim()
      .split('\n');
    return JSON.parse(lines.at(-1)!);
  };

  it('has the peak of a circular hole in tension: Kirsch, 3 times the far field', () => {
    const { stress } = Object.values(section.cases)[0]!;
    let largest = 0;
    for (let at = 0; at < stress.length; at += 4) largest = Math.max(largest, stress[at]!);
    expect(Math.abs(largest / 30 - 1)).toBeLessThan(0.01);
    expect(section.sides.channel!.length % 4).toBe(0);
  });

  it.runIf(hasReader)('is read as VTU by an independent reader, with units in its names', () => {
    const found = read('section.vtu', toVtu(section));
    expect(found).toMatchObject({ points: section.nodeOf.length, cells: section.zoneOf.length });
    const [name] = Object.keys(section.cases);
    expect(found.names).toEqual([`displacement in ${name}, mm`, `stress in ${name}, MPa`]);
    expect(Math.abs(found.largest[`stress in ${name}, MPa`] / 30 - 1)).toBeLessThan(0.01);
  });

  it.runIf(hasReader)('is read as MSH 4.1, its zones and sides by name', () => {
    const found = read('section.msh', toMsh(section));
    expect(found).toMatchObject({ points: section.x.length, cells: section.zoneOf.length });
    expect(found.groups).toEqual([...section.zones, ...Object.keys(section.sides)].sort());
  });

  it.runIf(hasGmsh)('is taken by Gmsh without a word of warning', () => {
    writeFileSync(join(folder, 'taken.msh'), toMsh(section));
    const { stdout, stderr } = spawnSync('gmsh', [join(folder, 'taken.msh'), '-parse_and_exit'], { encoding: 'utf8' });
    expect(stdout + stderr).toContain(`${section.x.length} nodes`);
    expect(stdout + stderr).not.toMatch(/warning|error/i);
  });
});
