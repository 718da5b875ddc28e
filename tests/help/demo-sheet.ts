import { readFileSync } from 'node:fs';

/** A bench sheet as JSON holds it, loose enough to spoil in a test. */
export interface LooseSheet {
  [key: string]: unknown;
  strip: {
    lengthMm: number;
    widthMm: number;
    massG: Record<string, number | number[]>;
    massTogetherG?: number | number[];
  };
  thickness: { mm: number | number[]; pressureKPa: number; standard?: string };
  greatestStretch?: string;
  stretch: {
    gaugeMm: number;
    widthMm: number;
    cycle?: number;
    units?: Record<string, string>;
    warp: LooseStrip;
    weft: LooseStrip;
    bias: LooseStrip;
    heldWidth?: { direction: string; load: number[][] };
  };
  bending: { angleDeg: number; overhangMm: Record<string, number> };
}

export interface LooseStrip {
  load: number[][];
  return?: number[][];
  width?: number[][];
}

export type DemoName = 'tern-210' | 'plover-185' | 'siskin-160';

/** The text of one of the invented demo fabrics' bench sheets. */
export function demoSheetText(name: DemoName): string {
  return readFileSync(new URL(`../../assets/demo/${name}.bench.json`, import.meta.url), 'utf8');
}

/** A fresh copy of a demo sheet to be changed. */
export function demoSheet(name: DemoName = 'tern-210'): LooseSheet {
  return JSON.parse(demoSheetText(name)) as LooseSheet;
}
