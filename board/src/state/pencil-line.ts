import type { Point } from "../wire/types.ts";

/** A picture in shades of grey, 0 black to 255 white, row by row from the top. Pixel (i, j) reaches from i to i + 1. */
export interface Grey {
  width: number;
  height: number;
  shade: Uint8Array;
}

/** A line is darker than the paper round it by at least so much, of 255. */
const LEAST_DARK = 14;
/** What is less dark than this share of the darkest nearby is ruling, a shadow or a rubbed-out line. */
const SHARE = 0.5;
const ROUNDS = 8;
/** From this share on, of the change of darkness along one way to that along the other, two lines meet. */
const MEETING = 0.22;

interface Window {
  left: number;
  top: number;
  size: number;
  /** How much darker than the paper each pixel is. */
  dark: Float32Array;
}

/**
 * The middle of the pencil line nearest to a place, within `reach` pixels; where two lines meet close by, the place where
 * they do. Null where there is none. `soft` is how wide
 * a pencil's line is taken to be at least, pixels.
 */
export function onPencilLine(picture: Grey, at: Point, reach: number, soft = 2): Point | null {
  const blur = Math.max(0.8, soft / 2);
  const around = cutOut(picture, at, Math.ceil(reach + 4 * blur) + 2, blur);
  const limit = Math.max(LEAST_DARK, SHARE * darkestWithin(around, at, reach));
  const near = nearestDark(around, at, reach, limit);
  if (!near) return null;
  const middle = centred(around, near, blur, limit);
  const found = corner(around, middle, blur) ?? middle;
  return Math.hypot(found[0] - at[0], found[1] - at[1]) <= reach + 2 * blur ? found : null;
}

/** A square round a place, smoothed, as darkness against the paper, which is its lighter part. */
function cutOut(picture: Grey, at: Point, half: number, blur: number): Window {
  const size = 2 * half + 1;
  const [left, top] = [Math.floor(at[0]) - half, Math.floor(at[1]) - half];
  const raw = new Float32Array(size * size);
  const known: number[] = [];
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const [i, j] = [left + x, top + y];
      const inside = i >= 0 && j >= 0 && i < picture.width && j < picture.height;
      const shade = inside ? picture.shade[j * picture.width + i]! : -1;
      raw[y * size + x] = shade;
      if (inside) known.push(shade);
    }
  }
  known.sort((a, b) => a - b);
  const paper = known[Math.floor(known.length * 0.7)] ?? 255;
  const dark = smoothed(raw.map((shade) => (shade < 0 ? 0 : Math.max(0, paper - shade))), size, blur);
  return { left, top, size, dark };
}

function smoothed(dark: Float32Array, size: number, blur: number): Float32Array {
  const half = Math.ceil(2.5 * blur);
  const weights = Array.from({ length: 2 * half + 1 }, (_, k) => Math.exp(-((k - half) ** 2) / (2 * blur * blur)));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const along = (from: Float32Array, stepX: number, stepY: number): Float32Array =>
    from.map((_, at) => {
      const [x, y] = [at % size, Math.floor(at / size)];
      let sum = 0;
      weights.forEach((weight, k) => {
        const [i, j] = [x + (k - half) * stepX, y + (k - half) * stepY];
        if (i >= 0 && j >= 0 && i < size && j < size) sum += weight * from[j * size + i]!;
      });
      return sum / whole;
    });
  return along(along(dark, 1, 0), 0, 1);
}

function eachWithin(around: Window, at: Point, reach: number, look: (x: number, y: number, dark: number, off: number) => void): void {
  const [cx, cy] = [at[0] - around.left, at[1] - around.top];
  for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(around.size, cy + reach); y++) {
    for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(around.size, cx + reach); x++) {
      const off = Math.hypot(x + 0.5 - cx, y + 0.5 - cy);
      if (off <= reach) look(x, y, around.dark[y * around.size + x]!, off);
    }
  }
}

function darkestWithin(around: Window, at: Point, reach: number): number {
  let most = 0;
  eachWithin(around, at, reach, (_x, _y, dark) => (most = Math.max(most, dark)));
  return most;
}

function nearestDark(around: Window, at: Point, reach: number, limit: number): Point | null {
  let [found, least]: [Point | null, number] = [null, Infinity];
  eachWithin(around, at, reach, (x, y, dark, off) => {
    if (dark >= limit && off < least) [found, least] = [[x + 0.5 + around.left, y + 0.5 + around.top], off];
  });
  return found;
}

/** From the flank of a line to its middle: again and again to the centre of darkness across it. */
function centred(around: Window, start: Point, blur: number, limit: number): Point {
  let at = start;
  for (let round = 0; round < ROUNDS; round++) {
    const [nx, ny] = across(around, at, 2.5 * blur + 1);
    const half = 3 * blur;
    let [sum, moment] = [0, 0];
    for (let t = -half; t <= half; t += 0.25) {
      const weight = Math.max(0, darkAt(around, [at[0] + t * nx, at[1] + t * ny]) - 0.4 * limit) ** 2;
      sum += weight;
      moment += weight * t;
    }
    const shift = sum > 0 ? moment / sum : 0;
    at = [at[0] + shift * nx, at[1] + shift * ny];
    if (Math.abs(shift) < 0.01) break;
  }
  return at;
}

/** How the darkness changes round a place: sums of products of its slopes, alone and with the places that they are at. */
interface Slopes {
  xx: number;
  xy: number;
  yy: number;
  atX: number;
  atY: number;
}

function slopes(around: Window, at: Point, reach: number): Slopes {
  const sum: Slopes = { xx: 0, xy: 0, yy: 0, atX: 0, atY: 0 };
  eachWithin(around, at, reach, (i, j) => {
    const [x, y]: Point = [i + 0.5 + around.left, j + 0.5 + around.top];
    const gx = darkAt(around, [x + 0.5, y]) - darkAt(around, [x - 0.5, y]);
    const gy = darkAt(around, [x, y + 0.5]) - darkAt(around, [x, y - 0.5]);
    sum.xx += gx * gx;
    sum.xy += gx * gy;
    sum.yy += gy * gy;
    sum.atX += gx * (gx * (x - at[0]) + gy * (y - at[1]));
    sum.atY += gy * (gx * (x - at[0]) + gy * (y - at[1]));
  });
  return sum;
}

/** The direction square to the line: in which the darkness changes most round a place. */
function across(around: Window, at: Point, reach: number): Point {
  const { xx, xy, yy } = slopes(around, at, reach);
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  return [Math.cos(angle), Math.sin(angle)];
}

/**
 * Where two lines meet near a place; null where a single one runs there. The flanks of a line are even on both sides of
 * its middle, so the place that lies least off all flanks is where the middles cross.
 */
function corner(around: Window, start: Point, blur: number): Point | null {
  let at = start;
  for (let round = 0; round < 3; round++) {
    const { xx, xy, yy, atX, atY } = slopes(around, at, 4 * blur + 2);
    const whole = xx * yy - xy * xy;
    const [half, apart] = [(xx + yy) / 2, Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy)];
    if (half - apart < MEETING * (half + apart)) return null;
    at = [at[0] + (yy * atX - xy * atY) / whole, at[1] + (xx * atY - xy * atX) / whole];
    if (Math.hypot(at[0] - start[0], at[1] - start[1]) > 3 * blur + 1) return null;
  }
  return at;
}

/** Darkness between the middles of pixels. */
function darkAt(around: Window, [x, y]: Point): number {
  const [u, v] = [x - around.left - 0.5, y - around.top - 0.5];
  const [i, j] = [Math.floor(u), Math.floor(v)];
  const pixel = (a: number, b: number): number => {
    const [p, q] = [Math.min(around.size - 1, Math.max(0, a)), Math.min(around.size - 1, Math.max(0, b))];
    return around.dark[q * around.size + p]!;
  };
  const [s, t] = [u - i, v - j];
  return (pixel(i, j) * (1 - s) + pixel(i + 1, j) * s) * (1 - t) + (pixel(i, j + 1) * (1 - s) + pixel(i + 1, j + 1) * s) * t;
}
