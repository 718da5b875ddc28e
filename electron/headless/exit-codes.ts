/** How a command ends; part of the command line's contract with scripts. */
export const exitCodes = {
  done: 0,
  /** Something is wrong with the program itself, or an outside check fails. */
  bug: 1,
  badInput: 2,
  notAtRest: 3,
  /** Ended by Ctrl-C: 128 + SIGINT, as shells count. */
  stopped: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
