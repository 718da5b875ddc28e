/** Where a command speaks: results on one side, everything that is not a result on the other. */
export interface Terminal {
  /** Writes to stdout, with a line end. */
  readonly result: (text: string) => void;
  /** Writes to stderr, with a line end. */
  readonly remark: (text: string) => void;
  /** Rewrites one line on stderr where a person watches it; does nothing otherwise. */
  readonly progress: (text: string) => void;
  /** Set off by Ctrl-C. */
  readonly stop: AbortSignal;
}

/** What of a process's stream is needed. */
interface Written {
  readonly isTTY?: boolean;
  readonly columns?: number;
  readonly write: (text: string) => unknown;
}

/** A terminal on two streams; the progress line is wiped before anything else is written. */
export function makeTerminal(
  streams: { readonly stdout: Written; readonly stderr: Written },
  stop: AbortSignal,
): Terminal {
  const { stdout, stderr } = streams;
  let isLineShown = false;
  const wipe = () => {
    // Carriage return, then "erase to the end of the line". @see ECMA-48, 8.3.41 (EL)
    if (isLineShown) stderr.write('\r\u001b[K');
    isLineShown = false;
  };
  return {
    result: (text) => {
      wipe();
      stdout.write(`${text}\n`);
    },
    remark: (text) => {
      wipe();
      stderr.write(`${text}\n`);
    },
    progress: (text) => {
      if (!stderr.isTTY) return;
      wipe();
      stderr.write(text.slice(0, (stderr.columns || 80) - 1));
      isLineShown = true;
    },
    stop,
  };
}
