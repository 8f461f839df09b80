/** What may make somebody better to see online: a camera turned, moved nearer, a larger picture of it. */
import type { Device } from "../model/device";
import { append } from "../model/edits";
import { canonical } from "../model/names";
import { mostZoom } from "../model/optics";
import { figure } from "../model/show";
import { Trial } from "../model/trial";
import { liveShots, shotsOf, type Shot } from "../signal/pictures/shots";
import { standOf } from "../signal/stands";
import { rootFile, type Remedy, type Scene } from "./check";
import { replaceIn } from "./join-text";
import { moveTo, setInPlace } from "./show-remedies";

/** Lines that services of calls carry at most, as a rule. Common practice, no source. */
const MOST_LINES = 1080;

/** A name as a place may have it. */
export const targetOf = (scene: Scene, name: string): string => (name === scene.setup.lectern.name ? "lectern" : name);

/** Cameras that are placed by themselves and sent. */
const placedCameras = (scene: Scene): Shot[] => [...liveShots(shotsOf(scene.graph), new Trial())].filter((s) => s.ending.device.placed !== undefined);

/** Turns a live camera. */
export const turn = (scene: Scene, name: string): Remedy[] => placedCameras(scene).flatMap(({ ending }) => setInPlace(scene, ending.device, "aim", targetOf(scene, name), `Aim ${ending.device.name} at ${targetOf(scene, name)}`));

/** Moves cameras of their own toward whoever is to be seen, along the line of sight, at a height at which nobody is in the way. */
export function nearer(scene: Scene, name: string, mouth: { x: number; y: number; z: number }): Remedy[] {
  const trial = new Trial();
  return placedCameras(scene).filter((s) => s.ending.device.type === "camera").flatMap(({ ending }) => {
    const at = standOf(scene.setup, ending.device, trial);
    const far = Math.hypot(at.x - mouth.x, at.y - mouth.y);
    const aimed = ending.device.aim === undefined ? `, aim ${targetOf(scene, name)}` : "";
    return [0.6, 0.45].filter((share) => share * far > 1.2).flatMap((share) => {
      const [x, y] = [mouth.x + (at.x - mouth.x) * share, mouth.y + (at.y - mouth.y) * share];
      return moveTo(ending.device, `at (${figure(round(x))} m, ${figure(round(y))} m, ${figure(round(at.z))} m)${aimed}`, `Move ${ending.device.name} nearer to ${targetOf(scene, name)}, to ${figure(round(share * far))} m`);
    });
  });
}

/** Zooms cameras in by a factor, as far as their lenses go, to whole halves. */
export function zoomIn(scene: Scene, factor: number): Remedy[] {
  if (!(factor > 1) || !Number.isFinite(factor)) return [];
  return placedCameras(scene).filter((s) => s.ending.device.type === "camera").flatMap(({ ending: { device, part } }) => {
    const most = mostZoom(part.optics);
    if (most === undefined) return [];
    // A lens of two focal lengths of which nobody says how it is set is taken at their geometric mean.
    const now = part.optics.zoomed?.best ?? (part.optics.zoom === undefined ? Math.sqrt(most) : 1);
    const steps = [1.1, 1.4].map((spare) => Math.ceil(now * factor * spare * 2) / 2).map((times) => Math.min(times, Math.floor(most * 10) / 10));
    return [...new Set(steps)].filter((times) => times > now).flatMap((times) => setInPlace(scene, device, "zoomed", `${figure(times)} times`, `Zoom ${device.name} in ${figure(times)} times`));
  });
}

/** Zooms a camera that is zoomed in back to its widest. */
export const zoomOut = (scene: Scene): Remedy[] => placedCameras(scene).filter(({ ending: { part } }) => (part.optics.zoomed?.best ?? 1) > 1)
  .flatMap(({ ending: { device } }) => setInPlace(scene, device, "zoomed", "1 times", `Zoom ${device.name} out`));

const round = (n: number): number => Math.round(n * 10) / 10;

/** Sends a camera's picture with more pixels. */
export function moreLines(scene: Scene): Remedy[] {
  return scene.graph.joins.flatMap((state) => state.pictures.filter((p) => p.height < MOST_LINES).map((p): Remedy => ({
    title: `Send the picture of ${p.name} at ${MOST_LINES}p${p.rate}`,
    edits: replaceIn(scene.setup, state, "sends", "picture", scene.item, `sends picture from ${p.name} at ${MOST_LINES}p${p.rate}`),
  })));
}

/** Joins with something owned that has a camera and is in no call yet: without sound, so that nothing echoes. */
export function joinCamera(scene: Scene, name: string): Remedy[] {
  const { setup, graph } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  const target = targetOf(scene, name);
  const free = [...setup.devices.values()].filter((d: Device) => d.type === "computer" && d.parts.some((p) => p.type === "camera") && !graph.joins.some((j) => canonical(j.device.name) === canonical(d.name)));
  return free.slice(0, 3).map((d): Remedy => {
    const camera = d.parts.find((p) => p.type === "camera");
    const lines = [`join ${d.name} {`, "  sends no sound", "  plays no sound", `  sends picture from ${camera?.id ?? d.name} at 360p15`, "}"].join("\n");
    const edits = [append(file, lines, ["join"])];
    const seats = setup.floor.group(target) !== undefined;
    if (d.placed === undefined) edits.push(append(file, seats ? `place ${d.name} at left front corner, aim ${target}` : `place ${d.name} before ${target}, aim ${target}`, ["place"]));
    return { title: `Join the call with ${d.name}, without sound, aimed at ${target}`, edits };
  });
}
