import type { GLTF } from '@gltf-transform/core';
import { broken, isObject, objectsIn, wholeBelow, type Json } from './glb-json.ts';
import { requireWithin } from './mesh-limits.ts';
import type { GlbParts } from './scan-glb.ts';

const COMPONENT_BYTES = { 5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4 } as const;
const COMPONENT_COUNT = { SCALAR: 1, VEC3: 3, VEC4: 4, MAT4: 16 } as const;

type AccessorType = keyof typeof COMPONENT_COUNT;

/** What a list of numbers is for; its kind of entry follows from that. */
export type AccessorUse = 'positions' | 'indices' | 'joints' | 'weights' | 'matrices';

const TYPE_OF: Readonly<Record<AccessorUse, AccessorType>> = {
  positions: 'VEC3',
  indices: 'SCALAR',
  joints: 'VEC4',
  weights: 'VEC4',
  matrices: 'MAT4',
};

/** Lists of numbers that are used, each once, proved, under new numbers. */
export interface KeptAccessors {
  /**
   * The new number of a list.
   *
   * @throws {Fault} `mesh/glb-broken`, `mesh/too-large`.
   */
  readonly keep: (index: unknown, use: AccessorUse, place: string) => number;
  /** How many entries it has, by its new number. */
  readonly countOf: (kept: number) => number;
  readonly accessors: readonly GLTF.IAccessor[];
  readonly bufferViews: readonly GLTF.IBufferView[];
}

/**
 * Keeps the lists of numbers that are asked for, each proved to lie where it should, all of them together within what
 * the memory holds.
 *
 * @throws {Fault} `mesh/glb-broken`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), section 3.6.2.
 */
export function keptAccessors({ json, binary, buffers }: GlbParts): KeptAccessors {
  const readViews = objectsIn(json, 'bufferViews');
  requireWithin('nodes', readViews.length);
  const views = readViews.map((view, i) => viewOf(view, `bufferViews[${i}]`, buffers));
  const read = objectsIn(json, 'accessors');
  const accessors: GLTF.IAccessor[] = [];
  const newIndex = new Map<string, number>();
  let numberCount = 0;
  const keep: KeptAccessors['keep'] = (index, use, place) => {
    const old = wholeBelow(read.length, index, place);
    const key = `${old} ${use}`;
    const known = newIndex.get(key);
    if (known !== undefined) return known;
    requireWithin('nodes', accessors.length);
    const accessor = accessorOf(read[old]!, use, `accessors[${old}]`, { views, binary });
    numberCount += accessor.count * COMPONENT_COUNT[TYPE_OF[use]];
    requireWithin('numbers', numberCount);
    newIndex.set(key, accessors.push(accessor) - 1);
    return accessors.length - 1;
  };
  return { keep, countOf: (kept) => accessors[kept]!.count, accessors, bufferViews: views };
}

function viewOf(view: Json, place: string, buffers: GlbParts['buffers']): GLTF.IBufferView {
  const { start, length } = buffers[wholeBelow(buffers.length, view['buffer'], `${place}.buffer`)]!;
  const byteLength = wholeBelow(length + 1, view['byteLength'], `${place}.byteLength`);
  const end = length - byteLength + 1;
  const byteOffset = start + wholeBelow(end, view['byteOffset'] ?? 0, `${place}.byteOffset`);
  if (view['byteStride'] === undefined) return { buffer: 0, byteOffset, byteLength };
  const byteStride = wholeBelow(253, view['byteStride'], `${place}.byteStride`);
  if (byteStride < 4 || byteStride % 4 !== 0) {
    throw broken(`${place}.byteStride`, `${byteStride} is not 4, 8, ... 252`);
  }
  return { buffer: 0, byteOffset, byteLength, byteStride };
}

interface Data {
  readonly views: readonly GLTF.IBufferView[];
  readonly binary: Uint8Array;
}

/* oxlint-disable-next-line max-params -- a list, what it is for, its place and where it lies */
function accessorOf(accessor: Json, use: AccessorUse, place: string, data: Data): GLTF.IAccessor {
  const type = TYPE_OF[use];
  if (accessor['type'] !== type) throw broken(`${place}.type`, `it should be ${type}`);
  const componentType = componentTypeOf(accessor, place);
  const count = wholeBelow(2 ** 32, accessor['count'], `${place}.count`);
  if (use === 'indices') requireWithin('triangles', count / 3);
  else requireWithin('vertices', count);
  const normalized = accessor['normalized'] === true && componentType < 5125;
  const sparse = accessor['sparse'] === undefined ? {} : sparseOf(accessor, { place, type, count, data });
  if (accessor['bufferView'] === undefined) {
    if (accessor['sparse'] === undefined) throw broken(`${place}.bufferView`, 'it is missing');
    return { componentType, count, type, normalized, ...sparse };
  }
  const lies = placeOf(accessor, { place, componentType, components: COMPONENT_COUNT[type], count, data });
  return { ...lies, componentType, count, type, normalized, ...sparse };
}

type ComponentType = keyof typeof COMPONENT_BYTES;

function componentTypeOf({ componentType }: Json, place: string): ComponentType {
  if (typeof componentType === 'number' && Object.hasOwn(COMPONENT_BYTES, componentType)) {
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- just looked up
    return componentType as ComponentType;
  }
  throw broken(`${place}.componentType`, 'it is unknown');
}

interface Wanted {
  readonly place: string;
  readonly componentType: ComponentType;
  readonly components: number;
  readonly count: number;
  readonly data: Data;
  /** Entries lie close, whatever stride the view has. */
  readonly isPacked?: boolean;
}

/** Where `count` entries lie, all within the data they name. */
function placeOf(holder: Json, wanted: Wanted): { bufferView: number; byteOffset: number } {
  const { place, componentType, components, count, data, isPacked = false } = wanted;
  const componentBytes = COMPONENT_BYTES[componentType];
  const bufferView = wholeBelow(data.views.length, holder['bufferView'], `${place}.bufferView`);
  const view = data.views[bufferView]!;
  const byteOffset = wholeBelow(view.byteLength + 1, holder['byteOffset'] ?? 0, `${place}.byteOffset`);
  const elementBytes = componentBytes * components;
  const stride = isPacked ? elementBytes : (view.byteStride ?? elementBytes);
  const needed = byteOffset + (count > 0 ? (count - 1) * stride + elementBytes : 0);
  if (stride < elementBytes || needed > view.byteLength) {
    throw broken(place, `its ${count} entries do not fit into the data they name`);
  }
  if ((byteOffset + view.byteOffset!) % componentBytes !== 0) {
    throw broken(`${place}.byteOffset`, 'its numbers do not lie on whole steps');
  }
  return { bufferView, byteOffset };
}

/** Entries that are put in place of others, each of them within the list. */
function sparseOf(
  accessor: Json,
  { place, type, count, data }: { place: string; type: AccessorType; count: number; data: Data },
): Pick<GLTF.IAccessor, 'sparse'> {
  const { sparse } = accessor;
  if (!isObject(sparse) || !isObject(sparse['indices']) || !isObject(sparse['values'])) {
    throw broken(`${place}.sparse`, 'it is no object with indices and values');
  }
  const sparseCount = wholeBelow(count + 1, sparse['count'], `${place}.sparse.count`);
  const indexType = componentTypeOf(sparse['indices'], `${place}.sparse.indices`);
  if (![5121, 5123, 5125].includes(indexType)) {
    throw broken(`${place}.sparse.indices.componentType`, 'it is no kind of index');
  }
  const indices = placeOf(sparse['indices'], {
    place: `${place}.sparse.indices`,
    componentType: indexType,
    components: 1,
    count: sparseCount,
    data,
    isPacked: true,
  });
  const values = placeOf(sparse['values'], {
    place: `${place}.sparse.values`,
    componentType: componentTypeOf(accessor, place),
    components: COMPONENT_COUNT[type],
    count: sparseCount,
    data,
    isPacked: true,
  });
  requireIndices(indices, { indexType, sparseCount, count, place, data });
  return { sparse: { count: sparseCount, indices: { ...indices, componentType: indexType }, values } };
}

function requireIndices(
  { bufferView, byteOffset }: { bufferView: number; byteOffset: number },
  list: { indexType: ComponentType; sparseCount: number; count: number; place: string; data: Data },
): void {
  const { indexType, sparseCount, count, place, data } = list;
  const { binary, views } = data;
  const view = new DataView(binary.buffer, binary.byteOffset, binary.byteLength);
  const bytes = COMPONENT_BYTES[indexType];
  const start = views[bufferView]!.byteOffset! + byteOffset;
  for (let i = 0; i < sparseCount; i++) {
    const at = start + i * bytes;
    const index =
      bytes === 1 ? view.getUint8(at) : bytes === 2 ? view.getUint16(at, true) : view.getUint32(at, true);
    wholeBelow(count, index, `${place}.sparse.indices, entry ${i + 1}`);
  }
}
