import assert from "node:assert/strict";
import { test } from "node:test";
import { inTurn } from "./in-turn.ts";

test("each begins when the one before has ended, and one that fails stops none", async () => {
  const told: string[] = [];
  const turn = inTurn();
  let goOn = (): void => undefined;
  const slow = new Promise<void>((done) => (goOn = done));
  const first = turn(async () => {
    await slow;
    told.push("first");
    throw new Error("refused");
  });
  const second = turn(async () => {
    told.push("second");
    return 2;
  });
  await Promise.resolve();
  assert.deepEqual(told, []);
  goOn();
  await assert.rejects(first, /refused/);
  assert.equal(await second, 2);
  assert.deepEqual(told, ["first", "second"]);
});
