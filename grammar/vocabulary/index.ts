import { ACCESS_ROWS } from "./access";
import { KIT_ROWS } from "./kit";
import { SETUP_ROWS } from "./links";
import { OPTICS_ROWS } from "./optics";
import { MEETING_ROWS } from "./meeting";
import { NETWORK_ROWS } from "./network";
import { PEOPLE_ROWS } from "./people";
import { PICTURE_ROWS } from "./pictures";
import { RELATIONS, type Owner, type Row } from "./row";
import { ROOM_ROWS } from "./room";
import { SEATING_ROWS } from "./seating";
import { SHAPE_ROWS } from "./shape";
import { SERVICE_ROWS } from "./service";
import { SOUND_ROWS } from "./sound";

export * from "./row";
export { CONNECTOR_TYPES, CONNECTOR_WORDS, DEVICE_TYPES, type Connector } from "./connectors";
export { FINISH_WORDS } from "./finishes";

/** The one table from which binding, messages, reference and highlighting come. */
export const VOCABULARY: readonly Row[] = [
  ...MEETING_ROWS,
  ...ROOM_ROWS,
  ...SHAPE_ROWS,
  ...SEATING_ROWS,
  ...KIT_ROWS.map(onTheSpot),
  ...OPTICS_ROWS.map(onTheSpot),
  ...SETUP_ROWS,
  ...NETWORK_ROWS,
  ...SERVICE_ROWS,
  ...SOUND_ROWS.map(onTheSpot),
  ...PICTURE_ROWS.map(onTheSpot),
  ...PEOPLE_ROWS.map(onTheSpot),
  ...ACCESS_ROWS,
];

/** Whatever a kit file can say of a device, the setup that places it can say, too. */
function onTheSpot(row: Row): Row {
  return row.within.includes("device") && !row.within.includes("place") ? { ...row, within: [...row.within, "place"] } : row;
}

const BY_OWNER: ReadonlyMap<Owner, ReadonlyMap<string, Row>> = (() => {
  const owners = new Map<Owner, Map<string, Row>>();
  for (const row of VOCABULARY) {
    for (const owner of row.within) {
      const rows = owners.get(owner) ?? new Map<string, Row>();
      rows.set(row.head, row);
      owners.set(owner, rows);
    }
  }
  return owners;
})();

/** The statement that begins with `head` in the block of `owner`, if there is one. */
export const rowFor = (owner: Owner, head: string): Row | undefined => BY_OWNER.get(owner)?.get(head.toLowerCase());

/** All statements that may stand with one owner. */
export const rowsOf = (owner: Owner): readonly Row[] => [...(BY_OWNER.get(owner)?.values() ?? [])];

/** Every word that begins a statement somewhere. */
export const HEADS: ReadonlySet<string> = new Set(VOCABULARY.map((row) => row.head));

/** Heads that stand only at the top of a file: repair of unindented text closes all blocks at them. */
export const TOP_HEADS: ReadonlySet<string> = (() => {
  const inside = new Set(VOCABULARY.filter((row) => row.within.some((owner) => owner !== "file")).map((row) => row.head));
  return new Set(VOCABULARY.filter((row) => row.within.includes("file") && !inside.has(row.head)).map((row) => row.head));
})();

/** After a comma a relation alone says where the owner of the line stands: `place box is battery-loudspeaker, near front`. */
export const isRelation = (word: string): boolean => Object.hasOwn(RELATIONS, word.toLowerCase());
