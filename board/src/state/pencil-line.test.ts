import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { onPencilLine, type Grey } from "./pencil-line.ts";

/** Paper with straight lines on it: each pixel's shade from how far its middle lies from a line, and a grain of its own. */
function paper(lines: { through: Point; angle: number; width: number; shade: number; half?: boolean }[], grain = 0): Grey {
  const [width, height] = [120, 90];
  const shade = new Uint8Array(width * height);
  let seed = 7;
  for (let k = 0; k < shade.length; k++) {
    seed = (seed * 1103515245 + 12345) % 2 ** 31;
    let value = 240 + grain * (seed / 2 ** 30 - 1);
    for (const line of lines) {
      const at: Point = [(k % width) + 0.5, Math.floor(k / width) + 0.5];
      const before = (line.through[0] - at[0]) * Math.cos(line.angle) + (line.through[1] - at[1]) * Math.sin(line.angle);
      // Half a line begins where it goes through, with a round end.
      const off = Math.hypot(offLine(at, line), line.half ? Math.max(0, before) : 0);
      const covered = Math.min(1, Math.max(0, line.width / 2 - off + 0.5));
      value = Math.min(value, 240 - covered * (240 - line.shade));
    }
    shade[k] = Math.max(0, Math.min(255, Math.round(value)));
  }
  return { width, height, shade };
}

const offLine = ([x, y]: Point, line: { through: Point; angle: number }): number =>
  -(x - line.through[0]) * Math.sin(line.angle) + (y - line.through[1]) * Math.cos(line.angle);

test("a place near a pencil line comes to its middle, at any angle and width", () => {
  for (const angle of [0, 0.3, 0.8, Math.PI / 2, 2.2]) {
    for (const width of [1.5, 3, 6]) {
      const line = { through: [60.3, 44.7] as Point, angle, width, shade: 90 };
      const [nx, ny] = [-Math.sin(angle), Math.cos(angle)];
      for (const off of [-7, -3, 0, 5]) {
        const found = onPencilLine(paper([line], 6), [60.3 + off * nx, 44.7 + off * ny], 9, width);
        assert.ok(found, `angle ${angle}, width ${width}, off ${off}`);
        assert.ok(Math.abs(offLine(found, line)) < 0.25, `${offLine(found, line)} px off at angle ${angle}, width ${width}`);
      }
    }
  }
});

test("the place along the line stays where the hand was", () => {
  const found = onPencilLine(paper([{ through: [60, 44], angle: 0, width: 2, shade: 80 }]), [71.5, 47], 8)!;
  assert.ok(Math.abs(found[0] - 71.5) < 0.6);
});

test("where two lines meet, a press near by comes to the corner", () => {
  for (const turn of [Math.PI / 2, 1.2, 2]) {
    for (const angle of [0, 0.4, 2.5]) {
      const at: Point = [60.4, 44.3];
      const corner = [angle, angle + turn].map((way) => ({ through: at, angle: way, width: 2.4, shade: 90, half: true }));
      for (const [dx, dy] of [[0, 0], [1.5, 1], [-1, 1.5], [-1.5, -1]] as Point[]) {
        const found = onPencilLine(paper(corner, 4), [at[0] + dx, at[1] + dy], 9, 2.1)!;
        const off = Math.hypot(found[0] - at[0], found[1] - at[1]);
        assert.ok(off < 1, `${off} px off for a turn of ${turn} from ${angle}, pressed ${dx}, ${dy} beside it`);
      }
    }
  }
});

test("nothing is there to come to on clean paper, or farther off than the reach", () => {
  assert.equal(onPencilLine(paper([], 8), [60, 44], 9), null);
  assert.equal(onPencilLine(paper([{ through: [60, 44], angle: 0, width: 2, shade: 80 }]), [60, 60], 6), null);
});

test("of two lines the nearer one is taken, and ruling as pale as a shadow is passed over", () => {
  const two = paper([
    { through: [60, 40], angle: 0, width: 2, shade: 80 },
    { through: [60, 54], angle: 0, width: 2, shade: 80 },
  ]);
  assert.ok(Math.abs(onPencilLine(two, [60, 49], 12)![1] - 54) < 0.3);
  const ruled = paper([
    { through: [60, 40], angle: 0, width: 2, shade: 80 },
    { through: [60, 46], angle: 0, width: 1, shade: 190 },
  ]);
  assert.ok(Math.abs(onPencilLine(ruled, [60, 46], 9)![1] - 40) < 0.3);
});

test("the edge of the picture is no line", () => assert.equal(onPencilLine(paper([]), [1, 1], 9), null));
