import { cpus } from 'node:os';

import { fixed } from '../../core/sheet/number-format.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readStudy } from './read-input.ts';
import { runTimed } from './run-timed.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';

/** Runs a study and prints how long each of its parts took on this machine. */
export async function benchSpeed(studyFile: string, asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  const started = performance.now();
  const study = await readStudy(studyFile);
  const opening = (performance.now() - started) / 1000;
  const { result, times } = await runTimed(study, terminal);
  const fabrics = result.worn.map(({ fabricId, equilibrium }) => ({
    id: fabricId,
    seconds: times.fabrics.get(fabricId) ?? 0,
    vertexCount: equilibrium.positions.length / 3,
    newtonSteps: equilibrium.newtonSteps,
    linearIterations: equilibrium.linearIterations,
    residual: equilibrium.residual,
    atRest: equilibrium.atRest,
  }));
  const machine = `Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`;
  const card = {
    machine,
    openingSeconds: opening,
    bodySeconds: times.body,
    garmentSeconds: times.garment,
    fabrics,
  };
  terminal.result(asJson ? JSON.stringify(card, null, 2) : cardAsText(card));
  return fabrics.every(({ atRest }) => atRest) ? exitCodes.done : exitCodes.notAtRest;
}

interface SpeedCard {
  readonly machine: string;
  readonly openingSeconds: number;
  readonly bodySeconds: number;
  readonly garmentSeconds: number;
  readonly fabrics: readonly {
    readonly id: string;
    readonly seconds: number;
    readonly vertexCount: number;
    /** Per mesh, coarsest first. */
    readonly newtonSteps: readonly number[];
    readonly linearIterations: readonly number[];
  }[];
}

function cardAsText(card: SpeedCard): string {
  const parts = [
    ['reading files', card.openingSeconds, ''],
    ['making the body', card.bodySeconds, ''],
    ['laying the garment', card.garmentSeconds, ''],
    ...card.fabrics.map(
      ({ id, seconds, vertexCount, newtonSteps, linearIterations }) =>
        [
          `wearing ${id}`,
          seconds,
          `${vertexCount} vertices; steps ${newtonSteps.join(' + ')}, linear ${linearIterations.join(' + ')} (coarse to fine)`,
        ] as const,
    ),
  ] as const;
  const rows = parts.map(([name, seconds, remark]) => [name, `${fixed(seconds, 2).padStart(7)} s`, remark]);
  return [card.machine, textTable(rows, 3)].join('\n');
}
