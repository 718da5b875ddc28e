/** Rays on which the shadow is read. */
const RAYS = 720;

/**
 * Outline of the shadow that light from straight above throws of a cloth and its round table: how far cloth reaches on
 * each of 720 rays from the axis.
 *
 * @param positions - 3*V, m; y up.
 * @param supportRadius - Of the table, m.
 * @returns x, z pairs in order of the angle from x towards z; 1440, m.
 */
export function shadowOf(
  positions: Float64Array,
  triangles: Uint32Array,
  supportRadius: number,
): Float64Array {
  const reach = new Float64Array(RAYS).fill(supportRadius);
  for (let i = 0; i < triangles.length; i++) {
    const a = 3 * triangles[i]!;
    const b = 3 * triangles[i % 3 === 2 ? i - 2 : i + 1]!;
    castEdge(reach, [positions[a]!, positions[a + 2]!], [positions[b]!, positions[b + 2]!]);
  }
  const shadow = new Float64Array(2 * RAYS);
  reach.forEach((r, ray) => {
    const angle = (2 * Math.PI * ray) / RAYS;
    shadow[2 * ray] = r * Math.cos(angle);
    shadow[2 * ray + 1] = r * Math.sin(angle);
  });
  return shadow;
}

/** Lengthens the rays that an edge crosses. */
function castEdge(
  reach: Float64Array,
  [ax, az]: readonly [number, number],
  [bx, bz]: readonly [number, number],
): void {
  const turn = Math.atan2(ax * bz - az * bx, ax * bx + az * bz);
  const from = turn >= 0 ? Math.atan2(az, ax) : Math.atan2(bz, bx);
  const spacing = (2 * Math.PI) / RAYS;
  const area = Math.abs(ax * bz - az * bx);
  for (let ray = Math.ceil(from / spacing); ray * spacing <= from + Math.abs(turn); ray++) {
    const c = Math.cos(ray * spacing);
    const s = Math.sin(ray * spacing);
    // Where c * t, s * t meets the line from a to b.
    const across = Math.abs(c * (bz - az) - s * (bx - ax));
    const at = ((ray % RAYS) + RAYS) % RAYS;
    if (across > 1e-12) reach[at] = Math.max(reach[at]!, area / across);
  }
}

/** Area within a closed outline of x, z pairs, m^2. */
export function polarArea(outline: Float64Array): number {
  let twice = 0;
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    twice += outline[i]! * outline[j + 1]! - outline[j]! * outline[i + 1]!;
  }
  return Math.abs(twice) / 2;
}

/**
 * Folds of a shadow: how often going round it the reach rises by more than `depth` from a hollow and falls by as much
 * again.
 *
 * @param depth - Ups and downs smaller than this are none, m.
 */
export function countFolds(outline: Float64Array, depth: number): number {
  const count = outline.length / 2;
  const reach = Float64Array.from({ length: count }, (_, i) =>
    Math.hypot(outline[2 * i]!, outline[2 * i + 1]!),
  );
  let start = 0;
  for (let i = 1; i < count; i++) if (reach[i]! < reach[start]!) start = i;
  let folds = 0;
  let rising = true;
  let extreme = reach[start]!;
  for (let i = 1; i <= count; i++) {
    const r = reach[(start + i) % count]!;
    if (rising ? r > extreme : r < extreme) extreme = r;
    else if (Math.abs(r - extreme) > depth) {
      if (rising) {
        // Up from the hollow by more than the depth, and now down from the crest by as much.
        folds++;
      }
      rising = !rising;
      extreme = r;
    }
  }
  return folds;
}
