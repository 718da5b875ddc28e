import type { FleshCase } from '../../io/flesh-cases.ts';

/**
 * Soft rings bonded to a rigid core and pressed by a band, 23 cases; mm, kPa, N/m.
 *
 * Source: computed with CalculiX ccx 2.20 (Debian), CAX8R, 16 elements through the flesh, length 8 H beyond the band. `linear`:
 * small displacements; `nlgeom`: NLGEOM, neo-Hooke C10 = E/4/(1+nu), D1 = 6(1-2nu)/E, pressure following a skin that is
 * free to slide. A mesh half as coarse moves indent and bulge by 0.1 % at most. Indent positive inwards, bulge outwards;
 * bulge_dist from the edge of the band along the unpressed skin.
 */
export const FLESH_CASES: readonly FleshCase[] = [
  {
    id: 'P01',
    inputs: { kind: 'pressure', R: 50, H: 15, E: 15, nu: 0.49, b: 40, p: 3.0, edge: 'sharp' },
    linear: { centre: 0.7583, maxindent: 0.829, bulge: 0.452, bulge_dist: 7.66 },
    nlgeom: { centre: 0.7218, maxindent: 0.7974, bulge: 0.4575, bulge_dist: 7.72 },
  },
  {
    id: 'P03',
    inputs: { kind: 'pressure', R: 50, H: 15, E: 15, nu: 0.45, b: 40, p: 3.0, edge: 'sharp' },
    linear: { centre: 1.1607, maxindent: 1.1968, bulge: 0.3255, bulge_dist: 9.15 },
    nlgeom: { centre: 1.1028, maxindent: 1.139, bulge: 0.3202, bulge_dist: 9.21 },
  },
  {
    id: 'P04',
    inputs: { kind: 'pressure', R: 70, H: 20, E: 15, nu: 0.49, b: 40, p: 3.0, edge: 'sharp' },
    linear: { centre: 1.2759, maxindent: 1.2771, bulge: 0.5427, bulge_dist: 10.74 },
    nlgeom: { centre: 1.2127, maxindent: 1.217, bulge: 0.5513, bulge_dist: 10.8 },
  },
  {
    id: 'P05',
    inputs: { kind: 'pressure', R: 70, H: 30, E: 8, nu: 0.49, b: 40, p: 3.2, edge: 'sharp' },
    linear: { centre: 4.5624, maxindent: 4.5624, bulge: 1.3095, bulge_dist: 17.74 },
    nlgeom: { centre: 4.124, maxindent: 4.124, bulge: 1.3484, bulge_dist: 17.77 },
  },
  {
    id: 'P06',
    inputs: { kind: 'pressure', R: 70, H: 30, E: 8, nu: 0.49, b: 40, p: 3.2, edge: 'soft', soft: 10.0 },
    linear: { centre: 4.5482, maxindent: 4.5482, bulge: 1.2963, bulge_dist: 18.01 },
    nlgeom: { centre: 4.1165, maxindent: 4.1165, bulge: 1.332, bulge_dist: 18.05 },
  },
  {
    id: 'P07',
    inputs: { kind: 'pressure', R: 30, H: 15, E: 15, nu: 0.49, b: 20, p: 3.0, edge: 'sharp' },
    linear: { centre: 1.1336, maxindent: 1.1336, bulge: 0.3239, bulge_dist: 8.87 },
    nlgeom: { centre: 1.0772, maxindent: 1.0772, bulge: 0.328, bulge_dist: 8.86 },
  },
  {
    id: 'P08',
    inputs: { kind: 'pressure', R: 30, H: 15, E: 15, nu: 0.49, b: 80, p: 3.0, edge: 'sharp' },
    linear: { centre: 0.3545, maxindent: 0.6804, bulge: 0.5122, bulge_dist: 7.31 },
    nlgeom: { centre: 0.3404, maxindent: 0.6632, bulge: 0.515, bulge_dist: 7.4 },
  },
  {
    id: 'P10',
    inputs: { kind: 'pressure', R: 50, H: 6, E: 30, nu: 0.49, b: 20, p: 2.0, edge: 'sharp' },
    linear: { centre: 0.0818, maxindent: 0.1035, bulge: 0.0638, bulge_dist: 3.01 },
    nlgeom: { centre: 0.0806, maxindent: 0.1023, bulge: 0.0641, bulge_dist: 3.02 },
  },
  {
    id: 'P12',
    inputs: { kind: 'pressure', R: 130, H: 40, E: 15, nu: 0.49, b: 300, p: 3.0, edge: 'sharp' },
    linear: { centre: 0.6523, maxindent: 1.8092, bulge: 1.393, bulge_dist: 19.44 },
    nlgeom: { centre: 0.6336, maxindent: 1.7724, bulge: 1.3979, bulge_dist: 19.69 },
  },
  {
    id: 'P13',
    inputs: { kind: 'pressure', R: 130, H: 30, E: 15, nu: 0.49, b: 8, p: 5.0, edge: 'sharp' },
    linear: { centre: 2.6785, maxindent: 2.6785, bulge: 0.2811, bulge_dist: 25.59 },
    nlgeom: { centre: 2.601, maxindent: 2.601, bulge: 0.2832, bulge_dist: 25.08 },
  },
  {
    id: 'P14',
    inputs: { kind: 'pressure', R: 70, H: 40, E: 15, nu: 0.49, b: 20, p: 3.0, edge: 'sharp' },
    linear: { centre: 2.7729, maxindent: 2.7729, bulge: 0.3903, bulge_dist: 30.51 },
    nlgeom: { centre: 2.6767, maxindent: 2.6767, bulge: 0.3903, bulge_dist: 30.09 },
  },
  {
    id: 'P15',
    inputs: { kind: 'pressure', R: 130, H: 20, E: 30, nu: 0.49, b: 40, p: 1.0, edge: 'sharp' },
    linear: { centre: 0.2142, maxindent: 0.2144, bulge: 0.0906, bulge_dist: 10.76 },
    nlgeom: { centre: 0.2125, maxindent: 0.2128, bulge: 0.0909, bulge_dist: 10.76 },
  },
  {
    id: 'P16',
    inputs: { kind: 'pressure', R: 50, H: 30, E: 8, nu: 0.45, b: 8, p: 3.0, edge: 'sharp' },
    linear: { centre: 3.2881, maxindent: 3.2881, bulge: 0.2352, bulge_dist: 27.6 },
    nlgeom: { centre: 3.0166, maxindent: 3.0166, bulge: 0.2223, bulge_dist: 26.99 },
  },
  {
    id: 'P17',
    inputs: { kind: 'pressure', R: 70, H: 20, E: 15, nu: 0.45, b: 300, p: 3.0, edge: 'sharp' },
    linear: { centre: 0.9509, maxindent: 1.4398, bulge: 0.4943, bulge_dist: 11.67 },
    nlgeom: { centre: 0.9494, maxindent: 1.3894, bulge: 0.4806, bulge_dist: 11.82 },
  },
  {
    id: 'P18',
    inputs: { kind: 'pressure', R: 130, H: 40, E: 8, nu: 0.49, b: 40, p: 3.2, edge: 'sharp' },
    linear: { centre: 6.3864, maxindent: 6.3864, bulge: 1.4587, bulge_dist: 25.46 },
    nlgeom: { centre: 5.8749, maxindent: 5.8749, bulge: 1.5036, bulge_dist: 25.27 },
  },
  {
    id: 'P19',
    inputs: { kind: 'pressure', R: 50, H: 20, E: 30, nu: 0.45, b: 20, p: 4.0, edge: 'soft', soft: 10.0 },
    linear: { centre: 1.2472, maxindent: 1.2472, bulge: 0.1764, bulge_dist: 14.95 },
    nlgeom: { centre: 1.1988, maxindent: 1.1988, bulge: 0.1739, bulge_dist: 14.92 },
  },
  {
    id: 'B01',
    inputs: { kind: 'band', R: 70, H: 20, E: 15, nu: 0.49, b: 40, k: 300.0, r0: 56.0, edge: 'sharp' },
    linear: {
      centre: 0.4433,
      maxindent: 0.444,
      bulge: 0.1893,
      bulge_dist: 10.77,
      p_mean_kPa: 1.047,
      r_centre: 69.5567,
    },
    nlgeom: {
      centre: 0.4359,
      maxindent: 0.4369,
      bulge: 0.1904,
      bulge_dist: 10.78,
      p_mean_kPa: 1.0473,
      r_centre: 69.5641,
    },
  },
  {
    id: 'B02',
    inputs: { kind: 'band', R: 50, H: 15, E: 15, nu: 0.49, b: 20, k: 600.0, r0: 40.0, edge: 'sharp' },
    linear: {
      centre: 1.0524,
      maxindent: 1.0524,
      bulge: 0.3063,
      bulge_dist: 8.92,
      p_mean_kPa: 2.7799,
      r_centre: 48.9476,
    },
    nlgeom: {
      centre: 1.0119,
      maxindent: 1.0119,
      bulge: 0.3114,
      bulge_dist: 8.9,
      p_mean_kPa: 2.788,
      r_centre: 48.9881,
    },
  },
  {
    id: 'B03',
    inputs: { kind: 'band', R: 30, H: 15, E: 8, nu: 0.49, b: 8, k: 300.0, r0: 24.0, edge: 'sharp' },
    linear: {
      centre: 1.369,
      maxindent: 1.369,
      bulge: 0.2048,
      bulge_dist: 11.29,
      p_mean_kPa: 2.0787,
      r_centre: 28.631,
    },
    nlgeom: {
      centre: 1.3208,
      maxindent: 1.3208,
      bulge: 0.2073,
      bulge_dist: 11.12,
      p_mean_kPa: 2.0949,
      r_centre: 28.6792,
    },
  },
  {
    id: 'B04',
    inputs: { kind: 'band', R: 130, H: 40, E: 8, nu: 0.49, b: 300, k: 500.0, r0: 97.5, edge: 'sharp' },
    linear: {
      centre: 0.526,
      maxindent: 1.3892,
      bulge: 1.0894,
      bulge_dist: 19.44,
      p_mean_kPa: 1.2572,
      r_centre: 129.474,
    },
    nlgeom: {
      centre: 0.514,
      maxindent: 1.3686,
      bulge: 1.0932,
      bulge_dist: 19.63,
      p_mean_kPa: 1.2577,
      r_centre: 129.486,
    },
  },
  {
    id: 'B05',
    inputs: { kind: 'band', R: 130, H: 30, E: 15, nu: 0.49, b: 8, k: 2000.0, r0: 104.0, edge: 'sharp' },
    linear: {
      centre: 1.9428,
      maxindent: 1.9428,
      bulge: 0.2043,
      bulge_dist: 25.59,
      p_mean_kPa: 3.6339,
      r_centre: 128.0572,
    },
    nlgeom: {
      centre: 1.9035,
      maxindent: 1.9035,
      bulge: 0.2052,
      bulge_dist: 25.2,
      p_mean_kPa: 3.6385,
      r_centre: 128.0965,
    },
  },
  {
    id: 'B06',
    inputs: { kind: 'band', R: 70, H: 30, E: 8, nu: 0.49, b: 40, k: 700.0, r0: 52.5, edge: 'sharp' },
    linear: {
      centre: 3.9089,
      maxindent: 3.9089,
      bulge: 1.1497,
      bulge_dist: 17.93,
      p_mean_kPa: 2.824,
      r_centre: 66.0911,
    },
    nlgeom: {
      centre: 3.6315,
      maxindent: 3.6315,
      bulge: 1.1952,
      bulge_dist: 17.93,
      p_mean_kPa: 2.8597,
      r_centre: 66.3685,
    },
  },
  {
    id: 'B08',
    inputs: { kind: 'band', R: 50, H: 30, E: 8, nu: 0.45, b: 20, k: 400.0, r0: 37.5, edge: 'sharp' },
    linear: {
      centre: 3.4151,
      maxindent: 3.4151,
      bulge: 0.3952,
      bulge_dist: 23.64,
      p_mean_kPa: 2.1516,
      r_centre: 46.5849,
    },
    nlgeom: {
      centre: 3.2025,
      maxindent: 3.2025,
      bulge: 0.3865,
      bulge_dist: 23.34,
      p_mean_kPa: 2.1856,
      r_centre: 46.7975,
    },
  },
];
