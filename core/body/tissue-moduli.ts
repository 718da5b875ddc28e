import type { BodyRegion } from './body-regions.ts';

/**
 * Effective foundation modulus by region, Pa: four times a modulus of the tissue of 5 to 20 kPa, as the even 40 kPa
 * of the fit body is four times 10 kPa. Hand-set estimates, meant for relative softness only.
 *
 * @see Order and spread: MR elastography of gluteal fat and muscle in ten women, shear modulus 0.75 and 1.0 kPa, E =
 *   3 G (J. Mech. Behav. Biomed. Mater. 2023, "Strain-dependent shear properties of human adipose tissue in vivo");
 *   indentation of lower limbs of eight adults, initial modulus 0.2 to 58 kPa (Zheng & Mak, J. Biomech. Eng. 121
 *   (1999) 330); whole breast, 5 kPa in tension (Suh et al., Materials Plus 2024). They differ by decades between
 *   methods: only which is softer should be believed.
 */
export const REGION_MODULI: Readonly<Record<BodyRegion, number>> = {
  neck: 50e3,
  shoulder: 60e3,
  bust: 20e3,
  underBust: 60e3,
  belly: 20e3,
  upperBack: 60e3,
  lumbar: 50e3,
  side: 32e3,
  seat: 32e3,
  underSeat: 32e3,
  crotch: 40e3,
  thigh: 40e3,
  knee: 60e3,
  calf: 60e3,
  ankle: 80e3,
  upperArm: 40e3,
  elbow: 60e3,
  forearm: 50e3,
  wrist: 80e3,
  head: 80e3,
};
