import {
  type ChannelTask,
  canonicalHost,
  createTask,
  type MeshedEdge,
  type ResolvedBrief,
  reduceJoint,
} from '@lumenfront/core';
import { type ChannelEvaluator, createChannelEvaluator } from '../channel/index.js';
import { type MeshHost, type MeshRequest, meshEdge } from './mesh-edge.js';
import { createOutlineReports, type ReportOutlines } from './report-outlines.js';

/** Somebody who evaluates channels of one task: this thread, or several workers. To be closed after use. */
export interface Scoring {
  readonly evaluator: ChannelEvaluator;
  readonly report: ReportOutlines;
  close(): Promise<void>;
}

/** Somebody who meshes channels of one joint: this thread, or several workers. To be closed after use. */
export interface Meshing {
  mesh(request: MeshRequest): Promise<MeshedEdge>;
  close(): Promise<void>;
}

/** What a study asks of the place where it runs. Results do not depend on it. */
export interface Workplace {
  /** All that judging channels of a brief needs; where the same joint was condensed before, its model may have been kept. */
  prepare(brief: ResolvedBrief): ChannelTask;
  evaluate(task: ChannelTask): Promise<Scoring>;
  /** @param channels that will be meshed */
  mesh(host: MeshHost, channels: number): Promise<Meshing>;
  /** Told what is worth knowing on the way. */
  note(text: string): void;
  /** What results are made with, by name. */
  readonly versions: Readonly<Record<string, string>>;
}

/** A workplace of this thread alone, which keeps reduced models in memory: for pages and programs of one's own. */
export function openThread(note: (text: string) => void = () => {}): Workplace {
  const models = new Map<string, ChannelTask['model']>();
  return {
    prepare: (brief) => {
      const key = canonicalHost(brief);
      const model = models.get(key) ?? reduceJoint(brief.joint, brief.channel);
      models.set(key, model);
      return createTask(brief, model);
    },
    evaluate: async (task) => ({
      evaluator: createChannelEvaluator(task),
      report: createOutlineReports(task),
      close: async () => {},
    }),
    mesh: async (host) => ({ mesh: async (request) => meshEdge(host, request), close: async () => {} }),
    note,
    versions: {},
  };
}
