/** Where a text stops being JSON, and why. */
export interface JsonProblem {
  /** Character index. */
  readonly at: number;
  readonly problem: string;
}

/** Deeper nesting than any file of ours; keeps the search from running out of stack. */
const DEEPEST = 100;

const NUMBER = /-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?/y;
// eslint-disable-next-line no-control-regex -- RFC 8259 shuts out exactly these inside a string
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const SPACE = /[ \t\n\r]*/y;
const WORD = /true|false|null/y;
const LOOSE_WORD = /[\p{L}\p{N}_$+.-]+/uy;

/** Thrown and caught inside this file only: unwinds the walk from the place of the first problem. */
class Stop {
  readonly problem: JsonProblem;
  constructor(at: number, problem: string) {
    this.problem = { at, problem };
  }
}

/**
 * Finds the first place where a text is not JSON; a key given twice counts, since one of the two would be lost.
 *
 * @returns Null where all is well.
 * @see RFC 8259.
 */
export function findJsonProblem(text: string): JsonProblem | null {
  try {
    const end = skipSpace(text, walkValue(text, 0, 0));
    if (end < text.length) throw new Stop(end, 'text goes on after the end of the value');
    return null;
  } catch (error) {
    if (error instanceof Stop) return error.problem;
    throw error;
  }
}

function walkValue(text: string, from: number, depth: number): number {
  const at = skipSpace(text, from);
  if (depth > DEEPEST) throw new Stop(at, `nested more than ${DEEPEST} deep`);
  const first = text[at];
  if (first === undefined) throw new Stop(at, 'the text ends where a value should stand');
  if (first === '{') return walkObject(text, at, depth);
  if (first === '[') return walkArray(text, at, depth);
  if (first === '"') return walkString(text, at);
  const end = match(WORD, text, at) ?? match(NUMBER, text, at);
  if (end === null || match(LOOSE_WORD, text, end) !== null) {
    const found = text.slice(at, match(LOOSE_WORD, text, at) ?? at + 1);
    throw new Stop(at, `${found} is no value (a number is written like 0.5 or 12, a text in double quotes)`);
  }
  return end;
}

function walkObject(text: string, open: number, depth: number): number {
  const keys = new Set<string>();
  let at = skipSpace(text, open + 1);
  if (text[at] === '}') return at + 1;
  for (;;) {
    if (text[at] !== '"') throw new Stop(at, 'a key in double quotes should stand here');
    const keyEnd = walkString(text, at);
    const key = text.slice(at, keyEnd);
    if (keys.has(key)) throw new Stop(at, `the key ${key} stands twice in the same place`);
    keys.add(key);
    const colon = skipSpace(text, keyEnd);
    if (text[colon] !== ':') throw new Stop(colon, `a colon should follow the key ${key}`);
    const end = skipSpace(text, walkValue(text, colon + 1, depth + 1));
    if (text[end] === '}') return end + 1;
    if (text[end] !== ',') throw new Stop(end, 'a comma or } should stand here');
    at = skipSpace(text, end + 1);
  }
}

function walkArray(text: string, open: number, depth: number): number {
  let at = skipSpace(text, open + 1);
  if (text[at] === ']') return at + 1;
  for (;;) {
    const end = skipSpace(text, walkValue(text, at, depth + 1));
    if (text[end] === ']') return end + 1;
    if (text[end] !== ',') throw new Stop(end, 'a comma or ] should stand here');
    at = end + 1;
  }
}

function walkString(text: string, at: number): number {
  const end = match(STRING, text, at);
  if (end === null) throw new Stop(at, 'a text that starts here is not closed by a double quote on its line');
  return end;
}

const skipSpace = (text: string, at: number): number => match(SPACE, text, at) ?? at;

/** End of a match that starts at `at`, or null. */
function match(pattern: RegExp, text: string, at: number): number | null {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : null;
}
