/** Whether two pieces of plain data (numbers, text, lists, records, typed arrays) say the same. */
export function alike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  const ownKeys = Object.keys(one);
  if (ownKeys.length !== Object.keys(other).length) return false;
  const others = new Map<string, unknown>(Object.entries(other));
  return Object.entries(one).every(([key, value]) => others.has(key) && alike(value, others.get(key)));
}
