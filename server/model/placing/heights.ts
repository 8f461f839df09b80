/** Heights above the floor, in metres. Seated eyes 1.2: planning practice; the others: common practice, no source. */
export const HEIGHTS = { seatedMouth: 1.15, seatedEye: 1.2, standingMouth: 1.55, table: 0.75, lens: 1.3, wall: 1.6, floor: 0.1 } as const;
