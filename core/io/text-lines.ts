/** One line of a text. */
export interface TextLine {
  /** From 1. */
  readonly line: number;
  readonly content: string;
}

/** The lines of a text, ended by LF, CR or CR LF, one after another: a large file is not held twice. */
export function* textLines(text: string): Generator<TextLine, undefined> {
  let line = 0;
  // Where the next CR stands: looked for only when it has been passed, so that a file without any is searched once.
  let nextCr = text.indexOf('\r');
  for (let at = 0; at <= text.length;) {
    if (nextCr !== -1 && nextCr < at) nextCr = text.indexOf('\r', at);
    const lf = text.indexOf('\n', at);
    const isCr = nextCr !== -1 && (lf === -1 || nextCr < lf);
    const end = isCr ? nextCr : lf === -1 ? text.length : lf;
    line++;
    yield { line, content: text.slice(at, end) };
    at = isCr && text[end + 1] === '\n' ? end + 2 : end + 1;
  }
  return undefined;
}
