/** A surface of triangles in the axes of its own body (x forward, y right, z down). */
export interface Mesh {
  /** Corner points [m], shape (n, 3) row-major. */
  readonly vertices: Float64Array;
  /** Corner indices, shape (m, 3) row-major; the corners run counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
}

/** Where a body stands: x_parent = R · x_body + p. */
export interface Pose {
  /** R, shape (3, 3) row-major, orthonormal with determinant +1. */
  readonly rotation: Float64Array;
  /** p [m], shape (3): the body's origin in parent axes. */
  readonly translation: Float64Array;
}

/** A parametric shape as a mesh, with how far the mesh may be from it. */
export interface StandIn {
  readonly mesh: Mesh;
  /**
   * Bound of the distance between the described surface and the mesh, either way [m]. A clearance between two described
   * surfaces is at least the clearance of the meshes less both bounds.
   */
  readonly facetingError: number;
}
