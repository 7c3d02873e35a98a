import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { briefSchema, readBriefText, starterBrief } from './index.js';

interface SchemaNode {
  readonly description?: string;
  readonly unit?: string;
  readonly type?: string;
  readonly default?: unknown;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
  readonly [keyword: string]: unknown;
}

/** Every node of the schema with its path. */
function* nodesOf(node: SchemaNode, path = ''): Generator<[path: string, node: SchemaNode]> {
  yield [path, node];
  for (const [key, child] of Object.entries(node.properties ?? {})) yield* nodesOf(child, `${path}.${key}`);
  if (typeof node.additionalProperties === 'object') yield* nodesOf(node.additionalProperties, `${path}.*`);
  if (node.items) yield* nodesOf(node.items, `${path}[]`);
  for (const [i, branch] of [...(node.anyOf ?? []), ...(node.oneOf ?? [])].entries())
    yield* nodesOf(branch, `${path}|${i}`);
}

describe('the JSON Schema of a brief', () => {
  it('is of draft 2020-12', async () => {
    expect((await briefSchema()).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  });

  it('says of every field what it means, and of every number its unit and its range', async () => {
    for (const [path, node] of nodesOf(await briefSchema())) {
      expect(node.description, path).toMatch(/\.$/);
      if (node.type !== 'number' && node.type !== 'integer') continue;
      expect(node.unit, path).toBeTruthy();
      expect(node.minimum ?? node.exclusiveMinimum, path).toBeTypeOf('number');
      expect(node.maximum ?? node.exclusiveMaximum, path).toBeTypeOf('number');
    }
  });

  it('gives every field a default but those that name it in words or are properties of a material or a liquid', async () => {
    const without = [...nodesOf(await briefSchema())]
      .filter(
        ([path, node]) => node.properties === undefined && node.default === undefined && !/[[|]/.test(path.at(-1)!),
      )
      .filter(([path]) => !/^\.(materials|cases)|\.(kind|made)$|\[\]$|\|\d$/.test(path))
      .map(([path]) => path);
    const ofKnownChannel = (part: string) =>
      ['at', 'width', 'height', 'turn', 'points', 'file', 'design'].map((field) => `${part}.channel.${field}`);
    expect(without).toEqual([
      '.host',
      ...ofKnownChannel('.host|0.filler'),
      '.host|0.pocket',
      ...ofKnownChannel('.host|0.pocket|0'),
      '.host|0.pocket|0.at',
      '.host|0.pocket|0.heights',
      ...ofKnownChannel('.host|0.pocket|1'),
      '.host|0.pocket|1.at',
      '.host|0.pocket|1.heights',
      '.host|0.pocket|1.flat',
      '.host|0.pocket|1.length',
      '.host|2.pocket|0.heights',
      '.host|2.pocket|1.heights',
      '.host|2.pocket|1.flat',
      '.host|2.pocket|1.length',
      '.host|3.mesh',
      '.host|3.filler',
      '.host|3.surfaces',
      '.host|3.surfaces.*.angle',
      '.host|3.surfaces.*.tangent|1.around',
      '.host|3.surfaces.*.tangent|2.along',
      '.host|3.supports.*.hold',
      '.host|3.loads.*',
      '.host|3.loads.*.*',
      '.channel.largest.width',
      '.channel.largest.height',
      '.channel.reference.at',
      '.channel.reference.width',
      '.channel.reference.height',
      '.channels.pitch',
      '.choices',
      '.choices.*',
      '.allow',
      '.delivery.during',
      '.delivery.supply.reservoir',
      '.delivery.supply.flowLimit',
      '.delivery.agents[]|1.name',
      '.delivery.agents[]|1.viscosity',
      '.delivery.agents[]|1.gelTime',
      '.delivery.agents[]|1.volumeChange',
      '.delivery.agents[]|1.largestGap',
      '.delivery.agents[]|1.tensileStrength',
      '.delivery.agents[]|1.shearStrength',
      '.delivery.agents[]|1.bondTensileStrength',
      '.delivery.agents[]|1.bondShearStrength',
      '.delivery.agents[]|1.toughnessShare',
      '.delivery.agents[]|1.fatigueSlope',
      '.delivery.cooling.coolant.name',
      '.delivery.cooling.coolant.viscosity',
      '.delivery.cooling.coolant.density',
      '.delivery.cooling.coolant.heatCapacity',
      '.delivery.cooling.coolant.conductivity',
      '.delivery.cooling.flowLimit',
      '.strength.edge|1.distance',
      '.strength.cuspDistance',
      '.strength.leastRetained',
      '.strength.crackGrowth.length',
      '.strength.crackGrowth.modeI',
      '.strength.crackGrowth.modeII',
    ]);
  });

  it('says every unit where editors show it: in the description', async () => {
    for (const [path, { unit, description }] of nodesOf(await briefSchema()))
      if (unit !== undefined && unit !== '1') expect(description, path).toContain(`Unit: ${unit}.`);
  });

  it('refuses unknown keys everywhere', async () => {
    for (const [path, node] of nodesOf(await briefSchema()))
      if (node.properties !== undefined) expect(node.additionalProperties, path).toBe(false);
  });

  it('accepts the starter brief and refuses a faulty one, read back by a validator', async () => {
    const validator = z.fromJSONSchema((await briefSchema()) as Parameters<typeof z.fromJSONSchema>[0]);
    const { data } = await readBriefText(starterBrief);
    expect(validator.safeParse(data).error).toBeUndefined();
    expect(validator.safeParse({ ...(data as object), allow: -1 }).success).toBe(false);
    expect(validator.safeParse({ ...(data as object), alow: 1 }).success).toBe(false);
  });
});
