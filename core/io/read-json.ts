import { z } from 'zod';

import { Fault } from '../fault/fault.ts';
import type { ShapeProblem } from '../fault/file-faults.ts';
import { findJsonProblem } from './json-problem.ts';

/** At most this many problems are told at once. */
const MOST_PROBLEMS = 4;

/**
 * The value of a JSON text; a byte order mark before it is passed over.
 *
 * @throws {Fault} `file/not-json` with line and column of the first problem, a key given twice included.
 */
export function readJson(text: string): unknown {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const problem = findJsonProblem(body);
  if (problem === null) return JSON.parse(body);
  const before = body.slice(0, problem.at).split(/\r\n|\r|\n/);
  throw new Fault('file/not-json', {
    line: before.length,
    column: before.at(-1)!.length + 1,
    problem: problem.problem,
  });
}

/**
 * The value, if it has the shape asked for.
 *
 * @throws {Fault} `file/wrong-shape` with the path, what was expected and what was found; the next few problems beside.
 */
export function checkShape<S extends z.ZodType>(schema: S, value: unknown): z.output<S> {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const problems = result.error.issues
    .flatMap((issue) => problemsOf(issue, schema, value))
    .slice(0, MOST_PROBLEMS);
  const [first, ...others] = problems;
  throw new Fault('file/wrong-shape', { ...first!, ...(others.length > 0 ? { others } : {}) });
}

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** One problem per issue; one per key where keys are not known; the most telling branch of a union. */
function problemsOf(issue: Issue, schema: z.ZodType, root: unknown): ShapeProblem[] {
  if (issue.code === 'unrecognized_keys') {
    const known = keysAt(schema, issue.path);
    return issue.keys.map((key) => ({
      path: pathText([...issue.path, key]),
      expected:
        known.length > 0
          ? `left out: the keys known here are ${known.join(', ')}`
          : 'left out: no such key is known here',
      value: valueText(valueAt(root, [...issue.path, key])),
    }));
  }
  if (issue.code === 'invalid_union') {
    const branches = issue.errors.map((branch) =>
      branch.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] })),
    );
    const deepest = branches.find((branch) => branch.every((inner) => inner.path.length > issue.path.length));
    if (deepest !== undefined && deepest.length > 0)
      return deepest.flatMap((inner) => problemsOf(inner, schema, root));
    const expected = [...new Set(branches.map((branch) => (branch[0] ? expectedText(branch[0]) : '')))];
    return [problemAt(issue.path, expected.filter((text) => text !== '').join(', or '), root)];
  }
  return [problemAt(issue.path, expectedText(issue), root)];
}

const problemAt = (path: Path, expected: string, root: unknown): ShapeProblem => ({
  path: pathText(path),
  expected,
  value: valueText(valueAt(root, path)),
});

const typeNames: Record<string, string> = {
  number: 'a number',
  string: 'a text in double quotes',
  boolean: 'true or false',
  array: 'a list in [ ]',
  tuple: 'a list in [ ]',
  object: 'a group in { }',
};

/** What an issue asks for, to follow "should be". */
function expectedText(issue: Issue): string {
  if (issue.code === 'invalid_type') return typeNames[issue.expected] ?? issue.expected;
  if (issue.code === 'invalid_value') return issue.values.map((value) => JSON.stringify(value)).join(' or ');
  if (issue.code === 'too_small') {
    return limitText(issue.origin, issue.inclusive === false ? 'more than' : 'at least', issue.minimum);
  }
  if (issue.code === 'too_big') {
    return limitText(issue.origin, issue.inclusive === false ? 'less than' : 'at most', issue.maximum);
  }
  return issue.message;
}

function limitText(origin: string, word: string, limit: number | bigint): string {
  if (origin === 'array') return `a list of ${word} ${limit}`;
  if (origin === 'string')
    return limit === 1 && word === 'at least'
      ? 'a text that is not empty'
      : `a text of ${word} ${limit} characters`;
  return `${word} ${limit}`;
}

/** `stretch.warp.load[3][1]`. */
function pathText(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    return text === '' ? String(part) : `${text}.${String(part)}`;
  }, '');
}

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const part of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = Object.getOwnPropertyDescriptor(value, part)?.value;
  }
  return value;
}

/** The value as JSON, shortened; `nothing` where there is none. */
function valueText(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** The keys that an object at this path may have; none where the path leads through a union. */
function keysAt(schema: z.ZodType, path: Path): string[] {
  let inner: unknown = unwrapped(schema);
  for (const part of path) {
    if (inner instanceof z.ZodObject) inner = unwrapped(inner.shape[String(part)]);
    else if (inner instanceof z.ZodArray) inner = unwrapped(inner.element);
    else return [];
  }
  return inner instanceof z.ZodObject ? Object.keys(inner.shape) : [];
}

function unwrapped(schema: unknown): unknown {
  return schema instanceof z.ZodOptional || schema instanceof z.ZodDefault
    ? unwrapped(schema.unwrap())
    : schema;
}
