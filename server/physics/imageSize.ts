/** How large things look from a seat. Heights and distances in metres, angles in radians. */
import { requireNonNegative, requirePositive } from "./domain";

/** One minute of arc, rad. */
export const ARC_MINUTE = Math.PI / 10_800;

/** Viewing distances of the basic decision, in element heights. */
const BASIC_DECISION = 200;

/** Viewing distances at which one line of picture is one minute of arc, in line heights: 1/tan 1′, as the standard rounds it. */
const ANALYTICAL_DECISION = 3438;

/** Face height as a share of its tile's (common practice, no source). */
export const FACE_SHARE = 1 / 3;

/**
 * Farthest viewer for basic decisions, FV = IH·EH·200.
 *
 * @param imageHeight IH, m, > 0
 * @param elementShare EH, height of the smallest element as a share of the image's, > 0
 * @returns FV, m. Source: ANSI/AVIXA V202.01:2016, basic decision making
 * @throws RangeError when a quantity ≤ 0
 */
export function farthestViewer(imageHeight: number, elementShare: number): number {
  requirePositive("image height", imageHeight);
  requirePositive("element height", elementShare);
  return imageHeight * elementShare * BASIC_DECISION;
}

/**
 * Least element height for a farthest viewer, EH = FV/(IH·200).
 *
 * @param viewer FV, m, ≥ 0
 * @param imageHeight IH, m, > 0
 * @returns EH, as a share of the image height. Source: ANSI/AVIXA V202.01:2016, basic decision making
 * @throws RangeError when the distance is negative or the height ≤ 0
 */
export function leastElementShare(viewer: number, imageHeight: number): number {
  requireNonNegative("viewing distance", viewer);
  requirePositive("image height", imageHeight);
  return viewer / (imageHeight * BASIC_DECISION);
}

/**
 * Least image height for a farthest viewer, IH = FV/(EH·200).
 *
 * @param viewer FV, m, ≥ 0
 * @param elementShare EH, as a share of the image height, > 0
 * @returns IH, m. Source: ANSI/AVIXA V202.01:2016, basic decision making
 * @throws RangeError when the distance is negative or the share ≤ 0
 */
export function leastImageHeight(viewer: number, elementShare: number): number {
  requireNonNegative("viewing distance", viewer);
  requirePositive("element height", elementShare);
  return viewer / (elementShare * BASIC_DECISION);
}

/**
 * Farthest viewer for analytical decisions, FV = IH·3438/lines: each line of the picture at one minute of arc.
 *
 * @param imageHeight IH, m, > 0
 * @param lines vertical pixels of the picture shown, > 0
 * @returns FV, m. Source: ANSI/AVIXA V202.01:2016, analytical decision making
 * @throws RangeError when a quantity ≤ 0
 */
export function farthestAnalyticalViewer(imageHeight: number, lines: number): number {
  requirePositive("image height", imageHeight);
  requirePositive("number of lines", lines);
  return (imageHeight * ANALYTICAL_DECISION) / lines;
}

/**
 * Closest viewer, CV = 1.732·(IH + IO): the top of the image is no more than 30° above the eyes.
 *
 * @param imageHeight IH, m, > 0
 * @param offset IO, bottom of the image above the eye line, m; negative where it hangs lower
 * @returns CV, m; 0 where the whole image lies below the eyes. Source: ANSI/AVIXA V202.01:2016
 * @throws RangeError when the image height ≤ 0
 */
export function closestViewer(imageHeight: number, offset: number): number {
  requirePositive("image height", imageHeight);
  return Math.max(0, 1.732 * (imageHeight + offset));
}

/**
 * Visual angle of a height seen square on, 2·arctan(h/2D).
 *
 * @param height h, m, ≥ 0
 * @param viewingDistance D, m, > 0
 * @returns angle, rad; divide by `ARC_MINUTE` for minutes of arc
 * @throws RangeError when the height is negative or the distance ≤ 0
 */
export function visualAngle(height: number, viewingDistance: number): number {
  requireNonNegative("height", height);
  requirePositive("viewing distance", viewingDistance);
  return 2 * Math.atan(height / (2 * viewingDistance));
}

/**
 * Height that is seen under an angle, h = 2·D·tan(α/2); for small angles 6.283·D·MA/21600 with MA in minutes of arc.
 *
 * @param angle α, rad, > 0 and under π
 * @param viewingDistance D, m, ≥ 0
 * @returns h, m. Source: NUREG-0700 §1.3.1-4, whose form is the small-angle one
 * @throws RangeError when the angle ≤ 0 or the distance negative
 */
export function heightForAngle(angle: number, viewingDistance: number): number {
  requirePositive("visual angle", angle);
  requireNonNegative("viewing distance", viewingDistance);
  return 2 * viewingDistance * Math.tan(angle / 2);
}

/**
 * Distance at which a height is seen under an angle, D = h/(2·tan(α/2)).
 *
 * @param height h, m, ≥ 0
 * @param angle α, rad, > 0
 * @returns D, m
 * @throws RangeError when the height is negative or the angle ≤ 0
 */
export function distanceForAngle(height: number, angle: number): number {
  requireNonNegative("height", height);
  requirePositive("visual angle", angle);
  return height / (2 * Math.tan(angle / 2));
}

/**
 * Height of a face when several are shown at once: a square grid of ⌈√n⌉ columns whose tiles keep the image's shape, a face a
 * third of its tile (model choice, common practice).
 *
 * @param imageHeight height of the image, m, > 0
 * @param faces n, number shown at once; fewer than 1 counts as 1
 * @returns face height, m
 * @throws RangeError when the image height ≤ 0
 */
export function faceHeightOnGrid(imageHeight: number, faces: number): number {
  requirePositive("image height", imageHeight);
  return (imageHeight / Math.ceil(Math.sqrt(Math.max(1, faces)))) * FACE_SHARE;
}

/** Height of a capital letter as a share of the size of its type, which counts from the foot of a g to above an A. Recalled: .70 to .73 for most sans-serif type. */
export const CAPITAL_SHARE = 0.7;

/**
 * Height of capital letters on a slide, as a share of the height of the picture.
 *
 * @param points size of the type, pt, > 0
 * @param slideHeight height of the slide, pt, > 0; 540 for most (7.5 in of 72 pt)
 * @returns share of the picture's height
 * @throws RangeError when a quantity ≤ 0
 */
export function capitalOnSlide(points: number, slideHeight = 540): number {
  requirePositive("size of type", points);
  requirePositive("height of a slide", slideHeight);
  return (points * CAPITAL_SHARE) / slideHeight;
}

/**
 * Width of a front row all of whose seats look at the far edge of the image from no more than 60° off its axis, 6·(IH + IO) − IW:
 * the row stands at the closest viewer's distance 1.732·(IH + IO), and tan 60° = 1.732.
 *
 * @param imageHeight IH, m, > 0
 * @param offset IO, bottom of the image above the eye line, m
 * @param imageWidth IW, m, > 0
 * @returns width, m; 0 where no seat at that distance is within it. Source: ANSI/AVIXA V202.01:2016, in a secondary source
 * @throws RangeError when a size of the image ≤ 0
 */
export function frontRowWidth(imageHeight: number, offset: number, imageWidth: number): number {
  requirePositive("image height", imageHeight);
  requirePositive("image width", imageWidth);
  return Math.max(0, 6 * (imageHeight + offset) - imageWidth);
}
