/** The part of the Khronos glTF validator that the tests use; the package brings no types. */
declare module 'gltf-validator' {
  export interface Report {
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      /** Severity 0 error, 1 warning, 2 remark, 3 hint. */
      readonly messages: readonly {
        readonly code: string;
        readonly message: string;
        readonly severity: number;
      }[];
    };
    readonly info: { readonly totalVertexCount: number; readonly totalTriangleCount: number };
  }
  export function validateBytes(bytes: Uint8Array): Promise<Report>;
}
