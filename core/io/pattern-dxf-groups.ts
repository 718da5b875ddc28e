import { Fault } from '../fault/fault.ts';
import { shortened } from './mesh-number.ts';
import { textLines } from './text-lines.ts';

/** A group code with its value. */
export interface DxfGroup {
  readonly code: number;
  readonly value: string;
  /** Of the value, from 1. */
  readonly line: number;
}

/**
 * The pairs of lines that a text DXF is made of, without comments, up to and without its end.
 *
 * @throws {Fault} `pattern/not-dxf`, `pattern/dxf-binary`, `pattern/unfinished`.
 */
export function* dxfGroups(text: string): Generator<DxfGroup, undefined> {
  if (text.startsWith('AutoCAD Binary DXF')) throw new Fault('pattern/dxf-binary', { line: 1 });
  const lines = textLines(text);
  let last = 1;
  for (let next = lines.next(); !next.done; next = lines.next()) {
    const { line, content } = next.value;
    const trimmed = content.trim();
    if (!/^\d{1,4}$/.test(trimmed)) {
      // A file may trail off in empty lines, never in the middle.
      if (trimmed === '' && isEmptyFrom(lines)) break;
      throw new Fault('pattern/not-dxf', { line, value: shortened(trimmed), expected: 'a group code' });
    }
    const value = lines.next();
    if (value.done) break;
    const group = { code: Number(trimmed), value: value.value.content.trim(), line: value.value.line };
    if (group.code === 0 && group.value === 'EOF') return;
    last = group.line;
    if (group.code !== 999) yield group;
  }
  throw new Fault('pattern/unfinished', { line: last, what: 'the drawing' });
}

function isEmptyFrom(lines: ReturnType<typeof textLines>): boolean {
  for (let next = lines.next(); !next.done; next = lines.next()) {
    if (next.value.content.trim() !== '') return false;
  }
  return true;
}
