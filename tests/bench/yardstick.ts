/**
 * Seconds for 40 million multiply-adds over an array that fits the cache: a fixed piece of plain arithmetic, so that runs
 * on a busy or a slow machine can be compared.
 */
export function yardstick(): number {
  const numbers = Float64Array.from({ length: 4000 }, (_, i) => 1 + i * 1e-6);
  const start = performance.now();
  let sum = 0;
  for (let round = 0; round < 10_000; round++)
    for (let i = 0; i < 4000; i++) sum += numbers[i]! * numbers[i]!;
  if (!Number.isFinite(sum)) throw new Error('the yardstick went wrong');
  return (performance.now() - start) / 1000;
}
