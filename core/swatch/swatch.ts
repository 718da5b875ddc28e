import type { Direction } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';

/** What of a fabric a swatch needs. SI. */
export interface SwatchFabric {
  readonly law: TensionLaw;
  /** Per unit width, N*m. */
  readonly bendingRigidity: Readonly<Record<Direction, number>>;
  /** kg/m^2. */
  readonly arealDensity: number;
}

/** What is done with the swatch. */
export type SwatchWish =
  | {
      /** A disc of fabric laid centred on a smaller round table. */
      readonly test: 'drape';
      /** Wanted number of vertices of the finest mesh. */
      readonly vertexCount: number;
      /** Radius of the specimen, m; 0.15 if left out. */
      readonly specimenRadius?: number;
      /** False leaves off the disc that the test lays on top; true if left out. */
      readonly covered?: boolean;
    }
  | {
      /** A strip pushed over an edge until its end touches a slope. */
      readonly test: 'cantilever';
      readonly direction: Direction;
      /** Of the slope below the horizontal, rad. */
      readonly slope: number;
    };

/** How far the search for rest has come. */
export interface SwatchProgress {
  readonly level: number;
  readonly levelCount: number;
  readonly iteration: number;
  readonly residual: number;
}

/** A swatch at rest. */
export interface SwatchRest {
  /** 3*V, m; y up, the table's top or the edge at height 0. */
  readonly positions: Float64Array;
  /** 3*T. */
  readonly triangles: Uint32Array;
  /** Place of each vertex on the flat cloth: along warp, along weft; 2*V, m. */
  readonly flat: Float64Array;
  readonly residual: number;
  readonly atRest: boolean;
}

/** A draped disc, measured as the test measures it. */
export interface DrapeRest extends SwatchRest {
  readonly supportRadius: number;
  readonly specimenRadius: number;
  /** Area of the shadow's ring over area of the flat ring, ratio. */
  readonly drapeCoefficient: number;
  /** Outline of the shadow in the plane of the table: x, z pairs, closed; m. */
  readonly shadow: Float64Array;
  readonly foldCount: number;
}

/** A strip over the edge. */
export interface CantileverRest extends SwatchRest {
  /** Length that hangs over when the end touches the slope, m. */
  readonly overhang: number;
  /** End of the strip from the edge: outward and down, m. */
  readonly tip: readonly [number, number];
}
