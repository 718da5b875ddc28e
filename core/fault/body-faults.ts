/** Where in space something is, mm in the file's own axes or the body's. */
export interface PlaceMm {
  readonly xMm: number;
  readonly yMm: number;
  readonly zMm: number;
}

/** Bodies that are no body: unreadable or unsound meshes, measures that no body can have. Vertices, triangles, lines count from 1. */
export interface BodyFaults {
  /** `line` in an OBJ file; null in other files. */
  'mesh/not-finite': { vertex: number; line: number | null; value: string };
  'mesh/decimal-comma': { line: number; value: string };
  'mesh/unreadable-line': { line: number; text: string; expected: string };
  'mesh/bad-index': { line: number | null; triangle: number | null; value: string; vertexCount: number };
  'mesh/no-triangles': { vertexCount: number };
  'mesh/too-large': {
    what:
      | 'bytes'
      | 'vertices'
      | 'triangles'
      | 'corners of one face'
      | 'corners of large faces'
      | 'numbers'
      | 'nodes';
    found: number;
    limit: number;
  };
  'mesh/not-glb': { problem: string };
  'mesh/not-its-kind': { kind: 'PLY' | 'STL' | 'glTF'; problem: string };
  /** `what` is being read where the file ends; bytes count from 0. */
  'mesh/ends-early': { what: string; promised: number; byteCount: number };
  'mesh/glb-feature': { feature: 'extension' | 'outside file'; name: string };
  'mesh/glb-broken': { place: string; problem: string };
  'mesh/repeated-corner': { triangle: number; vertex: number; count: number };
  'mesh/open': { edgeCount: number } & PlaceMm;
  'mesh/sheets-meet': { edgeCount: number; sheetCount: number } & PlaceMm;
  'mesh/turned-triangle': { edgeCount: number; triangle: number } & PlaceMm;
  'mesh/no-volume': { volumeCm3: number };
  'body/wrong-size': { heightMm: number; lowestMm: number; highestMm: number };
  /** Axes of the file, `+x` to `-z`. */
  'body/axes-not-square': { up: string; front: string };
  'body/no-such-part': { wanted: string; known: readonly string[] };
  'body/too-wide': { widthMm: number; mostMm: number };
  'body/bad-tissue': { depthMm: number; modulusKPa: number };
}
