import type { BenchFaults } from './bench-faults.ts';
import type { BlockFaults } from './block-faults.ts';
import type { BodyFaults } from './body-faults.ts';
import type { FileFaults } from './file-faults.ts';
import type { FitFaults } from './fit-faults.ts';
import type { GarmentFaults } from './garment-faults.ts';
import type { PatternFaults } from './pattern-faults.ts';
import type { TableFaults } from './table-faults.ts';
import type { TapeFaults } from './tape-faults.ts';

/** Every way the input can leave nothing sensible to compute: code -> what the reader must be told. */
export interface FaultFacts
  extends
    FileFaults,
    BenchFaults,
    BlockFaults,
    BodyFaults,
    FitFaults,
    GarmentFaults,
    PatternFaults,
    TableFaults,
    TapeFaults {}

export type FaultCode = keyof FaultFacts;

/**
 * The input leaves nothing sensible to compute. Thrown at the doors (io, fabric, body, garment), caught once in the
 * worker and once in the command line; `core/words` says it in plain words.
 */
export class Fault<C extends FaultCode = FaultCode> extends Error {
  readonly code: C;
  readonly facts: FaultFacts[C];
  /** The file it was met in, as the user named it; null while no door knows it. */
  file: string | null;

  constructor(code: C, facts: FaultFacts[C], file: string | null = null) {
    super(code);
    this.name = 'Fault';
    this.code = code;
    this.facts = facts;
    this.file = file;
  }
}

/**
 * Runs `read` and names `file` in whatever fault comes out of it.
 *
 * @throws {Fault} the same fault, with its file filled in where it was not known.
 */
export function inFile<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof Fault) error.file ??= file;
    throw error;
  }
}

/**
 * As {@link inFile}, for reading that takes its time.
 *
 * @throws {Fault} the same fault, with its file filled in where it was not known.
 */
export async function inFileAsync<T>(file: string, read: () => Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    if (error instanceof Fault) error.file ??= file;
    throw error;
  }
}
