import type { FleshCase } from '../../io/flesh-cases.ts';

// Source of all of these: computed with CalculiX ccx 2.20 (Debian), as the cases of flesh-reference.ts.

/** Endless bands: what the same program found of a plane-strain slice, linear and large (same materials); mm, kPa, N/m. */
export const ENDLESS_BANDS = [
  { R: 50, H: 40, E: 15, nu: 0.45, p: 2.0, band: null, linearIn: 0.92426, largeIn: 0.93059 },
  { R: 50, H: 25, E: 15, nu: 0.49, p: 2.0, band: null, linearIn: 0.14825, largeIn: 0.14845 },
  { R: 50, H: 25, E: 8, nu: 0.45, p: 3.0, band: null, linearIn: 1.98923, largeIn: 2.00749 },
  { R: 50, H: 35, E: 15, nu: 0.45, p: null, band: { k: 300, r0: 40.0 }, linearIn: 0.62094, largeIn: 0.62347 },
  { R: 50, H: 35, E: 5, nu: 0.45, p: null, band: { k: 300, r0: 35.0 }, linearIn: 2.88256, largeIn: 2.93015 },
] as const;

/** Waves round a limb, plane strain, linear, CPE8R, R 40 mm, H 20 mm, nu 0.49: pressure p cos(n theta) presses in C H/E p. */
export const HOOP_WAVES = [
  { n: 1, give: 0.40795 },
  { n: 2, give: 0.64406 },
  { n: 4, give: 0.66525 },
] as const;

/** As the case of the same id, but the skin under the band held along the limb (u_z = 0): a cloth that grips and does not stretch that way. */
export const HELD_SKIN: readonly Pick<FleshCase, 'id' | 'linear' | 'nlgeom'>[] = [
  {
    id: 'P04',
    linear: { centre: 0.9604, maxindent: 1.0183, bulge: 0.4722, bulge_dist: 8.93 },
    nlgeom: { centre: 0.9236, maxindent: 0.9707, bulge: 0.4487, bulge_dist: 8.83 },
  },
  {
    id: 'P05',
    linear: { centre: 3.9615, maxindent: 3.9615, bulge: 1.2278, bulge_dist: 15.99 },
    nlgeom: { centre: 3.5738, maxindent: 3.5738, bulge: 1.086, bulge_dist: 15.62 },
  },
  {
    id: 'P12',
    linear: { centre: 0.3974, maxindent: 1.8024, bulge: 0.9477, bulge_dist: 17.61 },
    nlgeom: { centre: 0.3952, maxindent: 1.7052, bulge: 0.9023, bulge_dist: 17.39 },
  },
];

/**
 * Deep indents, large displacements: skin held along the limb under the band and half its soft edge, dead radial load up to
 * p = E; rows of share of p, deepest indent, bulge.
 */
export const DEEP_INDENTS = [
  {
    id: 'Q01',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 40,
    p: 10.0,
    soft: 10.0,
    linearIn: 4.7265,
    linearBulge: 2.3516,
    rows: [
      [0.2, 0.9342, 0.46],
      [0.4, 1.8325, 0.8822],
      [0.6, 2.6905, 1.2644],
      [0.8, 3.5012, 1.6093],
      [1.0, 4.2741, 1.9209],
    ],
  },
  {
    id: 'Q02',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 80,
    p: 10.0,
    soft: 10.0,
    linearIn: 4.1481,
    linearBulge: 2.3758,
    rows: [
      [0.2, 0.8181, 0.4643],
      [0.4, 1.5961, 0.8908],
      [0.6, 2.32, 1.2785],
      [0.8, 2.9972, 1.6308],
      [1.0, 3.6205, 1.9521],
    ],
  },
  {
    id: 'Q03',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 20,
    p: 10.0,
    soft: 10.0,
    linearIn: 7.0535,
    linearBulge: 1.7831,
    rows: [
      [0.2, 1.3896, 0.3475],
      [0.4, 2.707, 0.6663],
      [0.6, 3.9236, 0.9537],
      [0.8, 5.0293, 1.2107],
      [1.0, 6.0253, 1.4402],
    ],
  },
  {
    id: 'Q04',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 10,
    p: 10.0,
    soft: 5.0,
    linearIn: 6.7969,
    linearBulge: 1.0118,
    rows: [
      [0.2, 1.3326, 0.1989],
      [0.4, 2.5854, 0.3878],
      [0.6, 3.7366, 0.5641],
      [0.8, 4.7819, 0.7266],
      [1.0, 5.7258, 0.8756],
    ],
  },
  {
    id: 'Q05',
    R: 40,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 40,
    p: 10.0,
    soft: 10.0,
    linearIn: 4.3767,
    linearBulge: 2.2169,
    rows: [
      [0.2, 0.8721, 0.4357],
      [0.4, 1.7261, 0.8386],
      [0.6, 2.5505, 1.2059],
      [0.8, 3.3496, 1.5392],
      [1.0, 4.122, 1.8418],
    ],
  },
  {
    id: 'Q06',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.45,
    b: 40,
    p: 10.0,
    soft: 10.0,
    linearIn: 7.7364,
    linearBulge: 1.7354,
    rows: [
      [0.2, 1.5074, 0.3298],
      [0.4, 2.9257, 0.616],
      [0.6, 4.2493, 0.8574],
      [0.8, 5.4778, 1.058],
      [1.0, 6.6145, 1.2227],
    ],
  },
  {
    id: 'Q07',
    R: 70,
    H: 20,
    E: 10,
    nu: 0.45,
    b: 80,
    p: 10.0,
    soft: 10.0,
    linearIn: 6.9546,
    linearBulge: 1.7621,
    rows: [
      [0.2, 1.3642, 0.3343],
      [0.4, 2.6635, 0.6241],
      [0.6, 3.8898, 0.869],
      [0.8, 5.0525, 1.0729],
      [1.0, 6.151, 1.2406],
    ],
  },
  {
    id: 'Q08',
    R: 130,
    H: 20,
    E: 10,
    nu: 0.49,
    b: 40,
    p: 10.0,
    soft: 10.0,
    linearIn: 4.918,
    linearBulge: 2.4056,
    rows: [
      [0.2, 0.9654, 0.4691],
      [0.4, 1.8846, 0.8978],
      [0.6, 2.7506, 1.2845],
      [0.8, 3.5608, 1.6326],
      [1.0, 4.3253, 1.9467],
    ],
  },
] as const;
