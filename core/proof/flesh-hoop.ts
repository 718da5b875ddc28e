import { spreadMovement } from '../equilibrium/flesh-layer.ts';
import type { Check } from './check.ts';
import { HOOP_WAVES } from './data/flesh-special-cases.ts';
import { fleshRing } from './flesh-ring.ts';

const SHARE = 0.1;
/** The ring of the source. m, Pa. */
const RING = { R: 0.04, H: 0.02, E: 15e3, nu: 0.49 };
const COLUMNS = 96;
const PRESSURE = 1000;

/** Pressure that varies round a limb as cos(n theta), endless along it. */
export function fleshHoopChecks(): Check[] {
  const rows = Float64Array.from({ length: 5 }, (_, row) => row * 0.002);
  const { layer } = fleshRing(RING, rows, { columns: COLUMNS });
  return HOOP_WAVES.map(({ n, give }) => {
    const wave = layer.area.map((_, v) => Math.cos((2 * Math.PI * n * v) / COLUMNS));
    const pressure = wave.map((share) => PRESSURE * share);
    const moved = new Float64Array(wave.length);
    spreadMovement(layer, pressure, moved);
    let [along, squared] = [0, 0];
    for (let v = 0; v < wave.length; v++) {
      along += wave[v]! * (moved[v]! + layer.local[v]! * pressure[v]!);
      squared += wave[v]! ** 2;
    }
    return {
      id: `flesh.hoop.${n}`,
      source: 'CalculiX ccx 2.20, CPE8R, plane strain, small displacements; R 40 mm, H 20 mm, nu 0.49',
      expected: give,
      got: (along / squared / PRESSURE) * (RING.E / RING.H),
      unit: 'H/E',
      tolerance: SHARE * give,
    };
  });
}
