/** Whether two pieces of plain data (numbers, text, lists, records, typed arrays) say the same. */
export function alike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (isNumbers(one) && isNumbers(other)) {
    return one.length === other.length && one.every((value, i) => value === other[i]);
  }
  const others = new Map<string, unknown>(Object.entries(other));
  const entries = Object.entries(one);
  return (
    entries.length === others.size &&
    entries.every(([key, value]) => others.has(key) && alike(value, others.get(key)))
  );
}

const isNumbers = (data: object): data is Float64Array | Uint32Array =>
  data instanceof Float64Array || data instanceof Uint32Array;
