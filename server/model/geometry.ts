/** Metres: x from the front wall to the back, y from the left wall to the right as the audience sees it, z up from the floor. */
export interface Vec3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
