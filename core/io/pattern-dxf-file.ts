import { Fault } from '../fault/fault.ts';
import { dxfGroups, type DxfGroup } from './pattern-dxf-groups.ts';
import { LARGEST_PATTERN_NUMBER, requirePatternWithin } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';

/** One thing drawn in a DXF file. */
export interface DxfEntity {
  readonly type: string;
  readonly layer: string;
  /** Where it begins. */
  readonly line: number;
  readonly groups: readonly DxfGroup[];
  /** Of a POLYLINE. */
  readonly vertices: readonly DxfEntity[];
}

export interface DxfBlock {
  readonly name: string;
  readonly base: readonly [number, number];
  readonly entities: readonly DxfEntity[];
  readonly line: number;
}

export interface DxfFile {
  readonly blocks: ReadonlyMap<string, DxfBlock>;
  readonly entities: readonly DxfEntity[];
}

/**
 * The blocks and entities of a text DXF; all other sections are passed over.
 *
 * @throws {Fault} `pattern/not-dxf`, `pattern/dxf-binary`, `pattern/unfinished`, `pattern/too-large`.
 */
export function dxfFile(text: string): DxfFile {
  requirePatternWithin('characters', text.length);
  const blocks: DxfEntity[] = [];
  const entities: DxfEntity[] = [];
  let section: { readonly name: string; readonly line: number } | null = null;
  for (const record of records(text)) {
    if (record.type === 'SECTION') section = { name: textOf(record, 2), line: record.line };
    else if (record.type === 'ENDSEC') section = null;
    else if (section?.name === 'BLOCKS') blocks.push(record);
    else if (section?.name === 'ENTITIES') entities.push(record);
  }
  if (section)
    throw new Fault('pattern/unfinished', { line: section.line, what: `the section ${section.name}` });
  return { blocks: blocksOf(blocks), entities: withVertices(entities) };
}

/** Everything between BLOCK and ENDBLK, by the block's name. */
function blocksOf(records: readonly DxfEntity[]): Map<string, DxfBlock> {
  const blocks = new Map<string, DxfBlock>();
  let open: OpenBlock | null = null;
  for (const record of records) {
    if (record.type === 'BLOCK') open = openBlock(record);
    else if (record.type === 'ENDBLK') {
      if (open) blocks.set(open.name, { ...open, entities: withVertices(open.entities) });
      open = null;
    } else open?.entities.push(record);
  }
  if (open) throw new Fault('pattern/unfinished', { line: open.line, what: `the block ${open.name}` });
  return blocks;
}

interface OpenBlock extends DxfBlock {
  readonly entities: DxfEntity[];
}

const openBlock = (record: DxfEntity): OpenBlock => ({
  name: textOf(record, 2),
  base: [numberOf(record, 10, 0), numberOf(record, 20, 0)],
  entities: [],
  line: record.line,
});

/** Groups put together from one code 0 to the next. */
function* records(text: string): Generator<DxfEntity> {
  let open: { type: string; layer: string; line: number; groups: DxfGroup[]; vertices: DxfEntity[] } | null =
    null;
  let count = 0;
  for (const group of dxfGroups(text)) {
    if (group.code === 0) {
      if (open) yield open;
      count++;
      requirePatternWithin('points', count);
      open = { type: group.value.toUpperCase(), layer: '0', line: group.line, groups: [], vertices: [] };
    } else if (!open) {
      throw new Fault('pattern/not-dxf', {
        line: group.line,
        value: shortened(group.value),
        expected: 'the beginning of a section',
      });
    } else {
      open.groups.push(group);
      if (group.code === 8) open.layer = group.value;
    }
  }
  if (open) yield open;
}

/** Puts vertices into the polylines that they follow. */
function withVertices(entities: readonly DxfEntity[]): DxfEntity[] {
  const whole: DxfEntity[] = [];
  let vertices: DxfEntity[] | null = null;
  let polyline: DxfEntity | null = null;
  for (const entity of entities) {
    if (entity.type === 'VERTEX' && vertices) vertices.push(entity);
    else if (entity.type === 'SEQEND') {
      vertices = null;
      polyline = null;
    } else {
      if (polyline) break;
      vertices = entity.type === 'POLYLINE' ? [] : null;
      polyline = vertices ? entity : null;
      whole.push(vertices ? { ...entity, vertices } : entity);
    }
  }
  if (polyline) throw new Fault('pattern/unfinished', { line: polyline.line, what: 'a polyline' });
  return whole;
}

/** The text of a group; empty where it is missing. */
export const textOf = ({ groups }: DxfEntity, code: number): string =>
  groups.find((group) => group.code === code)?.value ?? '';

/**
 * The number of a group.
 *
 * @param missing - Taken where the group is missing; a group that has to be there has none.
 * @throws {Fault} `pattern/bad-number`.
 */
export function numberOf(entity: DxfEntity, code: number, missing?: number): number {
  const group = entity.groups.find((one) => one.code === code);
  if (group) return dxfNumber(group, entity.type);
  if (missing !== undefined) return missing;
  const what = `group ${code} of a ${entity.type}`;
  throw new Fault('pattern/bad-number', { line: entity.line, what, value: 'nothing' });
}

/** @throws {Fault} `pattern/bad-number`. */
export function dxfNumber({ code, value, line }: DxfGroup, type: string): number {
  const isNumber = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(value);
  const number = Number(value);
  if (isNumber && Math.abs(number) <= LARGEST_PATTERN_NUMBER) return number;
  const what = `group ${code} of a ${shortened(type)}`;
  throw new Fault('pattern/bad-number', { line, what, value: shortened(value) });
}
