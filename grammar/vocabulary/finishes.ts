/** Everyday words for what floors, walls and ceilings are made of; the absorption of each stands in `server/physics/finishes.ts`. */
export const FINISH_WORDS: Readonly<Record<string, string>> = {
  plaster: "plaster on a solid wall",
  linoleum: "linoleum, vinyl or rubber",
  plasterboard: "board on studs",
  brick: "bare or painted masonry",
  block: "painted concrete block",
  concrete: "concrete or terrazzo",
  stone: "stone slabs or tiles",
  wood: "wooden boards or parquet",
  panelling: "wooden panels with air behind",
  "carpet-thin": "thin carpet",
  "carpet-heavy": "heavy carpet",
  glass: "ordinary window panes",
  "acoustic-tile": "porous ceiling tiles",
};
