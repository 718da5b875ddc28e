/**
 * Conversions to and from SI, used at the doors (`io`, `sheet`) only. Inside core every bare number is SI.
 */

/** Standard gravity, m/s^2. @see CGPM 1901, resolution 2. */
export const STANDARD_GRAVITY = 9.80665;

/**
 * One conventional millimetre of mercury in Pa: 13595.1 kg/m^3 * g0 * 1 mm.
 *
 * @see ISO 80000-4:2019 (conventional millimetre of mercury).
 */
export const PASCAL_PER_MMHG = 13595.1 * STANDARD_GRAVITY * 1e-3;

/** One kilogram-force in N: 1 kg * g0. @see ISO 80000-4:2019. */
export const NEWTON_PER_KGF = STANDARD_GRAVITY;

export const metresFromMm = (mm: number): number => mm / 1000;
export const mmFromMetres = (metres: number): number => metres * 1000;
export const cm2FromSquareMetres = (squareMetres: number): number => squareMetres * 1e4;
export const pascalsFromKPa = (kPa: number): number => kPa * 1000;
export const kPaFromPascals = (pascals: number): number => pascals / 1000;
export const mmHgFromPascals = (pascals: number): number => pascals / PASCAL_PER_MMHG;
export const ratioFromPercent = (percent: number): number => percent / 100;
export const percentFromRatio = (ratio: number): number => ratio * 100;
export const kilogramsFromGrams = (grams: number): number => grams / 1000;
export const gramsFromKilograms = (kilograms: number): number => kilograms * 1000;
export const radiansFromDegrees = (degrees: number): number => (degrees * Math.PI) / 180;
export const degreesFromRadians = (radians: number): number => (radians * 180) / Math.PI;
