import { Fault } from '../../core/fault/fault.ts';

/** The fault that `run` throws; anything else that it throws goes on, and throwing nothing is an error. */
export function faultOf(run: () => unknown): Fault {
  try {
    run();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('no fault was thrown');
}
