/** One ring of the tube as CalculiX left it. */
export interface HourglassRow {
  /** Height over the waist; the body's axis. */
  readonly zMm: number;
  readonly radiusMm: number;
  /** Radius of the tube less radius of the body at the same height; negative where the tube has gone in. */
  readonly radialGapMm: number;
  /** Over the mean of rows 2 to 22; the program's nodal contact area is not the true one, so only the shape counts. */
  readonly pressureOverMean: number;
}

/**
 * Tube on an hourglass, frictionless, computed with CalculiX ccx 2.20 (Debian 12 package calculix-ccx): M3D3 membranes,
 * NLGEOM, node-to-surface contact with a linear pressure-overclosure of 2.265 kPa/mm, body r(z) = 130 - 25 exp(-(z/60)^2) mm
 * as a fixed C3D8 polygon of 128 divisions. Tube of 64 x 24 divisions, 240 mm high, end rows held in z, nodes on the
 * body's surface + 0.01 mm, St. Venant-Kirchhoff membrane E t = 500 N/m, nu = 0, isotropic Green eigenstrain -0.2.
 */
export const CCX_HOURGLASS: readonly HourglassRow[] = [
  { zMm: -120.0, radiusMm: 129.1313, radialGapMm: -0.4108, pressureOverMean: 1.1188 },
  { zMm: -110.039, radiusMm: 128.6515, radialGapMm: -0.4832, pressureOverMean: 1.3279 },
  { zMm: -100.078, radiusMm: 127.9138, radialGapMm: -0.5386, pressureOverMean: 1.4843 },
  { zMm: -90.115, radiusMm: 126.794, radialGapMm: -0.5862, pressureOverMean: 1.614 },
  { zMm: -80.149, radiusMm: 125.1854, radialGapMm: -0.6173, pressureOverMean: 1.6902 },
  { zMm: -70.175, radiusMm: 123.016, radialGapMm: -0.6182, pressureOverMean: 1.6742 },
  { zMm: -60.187, radiusMm: 120.2833, radialGapMm: -0.577, pressureOverMean: 1.5391 },
  { zMm: -50.183, radiusMm: 117.0918, radialGapMm: -0.4878, pressureOverMean: 1.2793 },
  { zMm: -40.162, radiusMm: 113.6803, radialGapMm: -0.3481, pressureOverMean: 0.8944 },
  { zMm: -30.125, radiusMm: 110.4306, radialGapMm: -0.14, pressureOverMean: 0.3245 },
  { zMm: -20.052, radiusMm: 107.8871, radialGapMm: 0.2453, pressureOverMean: 0.0 },
  { zMm: -9.997, radiusMm: 106.359, radialGapMm: 0.6746, pressureOverMean: 0.0 },
  { zMm: 0.0, radiusMm: 105.8516, radialGapMm: 0.8516, pressureOverMean: 0.0 },
  { zMm: 9.997, radiusMm: 106.359, radialGapMm: 0.6746, pressureOverMean: 0.0 },
  { zMm: 20.052, radiusMm: 107.8871, radialGapMm: 0.2453, pressureOverMean: 0.0 },
  { zMm: 30.125, radiusMm: 110.4306, radialGapMm: -0.14, pressureOverMean: 0.3245 },
  { zMm: 40.162, radiusMm: 113.6803, radialGapMm: -0.3481, pressureOverMean: 0.8944 },
  { zMm: 50.183, radiusMm: 117.0918, radialGapMm: -0.4878, pressureOverMean: 1.2793 },
  { zMm: 60.187, radiusMm: 120.2833, radialGapMm: -0.577, pressureOverMean: 1.5391 },
  { zMm: 70.175, radiusMm: 123.016, radialGapMm: -0.6182, pressureOverMean: 1.6742 },
  { zMm: 80.149, radiusMm: 125.1854, radialGapMm: -0.6173, pressureOverMean: 1.6902 },
  { zMm: 90.115, radiusMm: 126.794, radialGapMm: -0.5862, pressureOverMean: 1.614 },
  { zMm: 100.078, radiusMm: 127.9138, radialGapMm: -0.5386, pressureOverMean: 1.4843 },
  { zMm: 110.039, radiusMm: 128.6515, radialGapMm: -0.4832, pressureOverMean: 1.3279 },
  { zMm: 120.0, radiusMm: 129.1313, radialGapMm: -0.4108, pressureOverMean: 1.1188 },
];
