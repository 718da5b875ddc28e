/** Bodies that are no body: unsound meshes, measures that no form can have. */
export interface BodyFaults {
  'mesh/not-finite': { vertex: number; line: number | null; value: string };
}
